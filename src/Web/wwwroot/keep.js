// Forms marked data-keep are kept on this device while they are typed, and sent once when there is a connection.
// What is kept: the fields and the key of this sending (_once), so the office acts once however often it arrives.
(() => {
  const form = document.querySelector("form[data-keep]");
  if (!form || !window.fetch || !window.localStorage || !window.indexedDB) return;
  const path = bare(new URL(location.href));
  const place = "kept:" + path;

  // The sheet's own address: without what a button like "More holes" puts behind it.
  function bare(url) {
    for (const name of ["handler", "of", "at"]) url.searchParams.delete(name);
    return url.pathname.replace(/\/$/, "") + (url.searchParams.size ? "?" + url.searchParams : "");
  }

  const who = document.body.dataset.who || "";
  const sign = document.createElement("div");
  sign.className = "kept told";
  sign.setAttribute("role", "status");
  form.prepend(sign);
  const refusedHere = !!document.getElementById("refusals");
  let sending = false;
  // Known only when the database has answered: until then what is typed goes before what was kept, field by field.
  let known = false;
  const touched = new Set();

  // localStorage answers at once but reaches the disk seconds later; the database is on the disk when it says so, for the battery that dies.
  const disk = new Promise((done) => {
    const opening = indexedDB.open("kept", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("sheets");
    opening.onsuccess = () => done(opening.result);
    opening.onerror = () => done(null);
  });
  const onDisk = (act) => disk.then((d) => d && new Promise((done) => {
    const turn = d.transaction("sheets", "readwrite", { durability: "strict" });
    const asked = act(turn.objectStore("sheets"));
    turn.oncomplete = () => done(asked.result);
    turn.onerror = turn.onabort = () => done(null);
  }));

  const read = () => { try { return JSON.parse(localStorage.getItem(place)); } catch { return null; } };
  const forget = () => { localStorage.removeItem(place); return onDisk((s) => s.delete(place)); };
  const fields = () => [...form.elements].filter((e) => e.name && e.type !== "file" && e.type !== "submit" && e.name !== "_form");
  const chosen = () => [...form.elements].filter((e) => e.type === "file" && e.id).flatMap((e) => [...e.files].map((file) => [e.id, file]));
  const time = (at) => new Date(at).toLocaleTimeString([], { hour: "numeric", minute: "2-digit" });

  function keep(state) {
    if (!known) return;
    const old = read() || {};
    const values = fields().map((e) => [e.name, e.type === "checkbox" || e.type === "radio" ? (e.checked ? e.value : null) : e.value, e.value]);
    const kept = { who: old.who || who, at: Date.now(), state: state || old.state || "typing", title: document.title.replace(/^Not saved: /, ""), values };
    onDisk((s) => s.put({ ...kept, files: chosen() }, place));
    try { localStorage.setItem(place, JSON.stringify(kept)); } catch { say("This device has no room to keep the sheet. Save it while there is a connection.", true); return; }
    say(kept.state === "waiting" ? waitingWords(kept) : "Kept on this device at " + time(kept.at) + ". Not saved in the office yet.");
  }

  const waitingWords = (kept) => "Not sent: no connection. The sheet is kept on this device since " + time(kept.at) + " and goes out by itself when the connection is back and this page is open.";

  function say(words, caution, ...buttons) {
    sign.classList.toggle("caution", !!caution);
    sign.replaceChildren(document.createTextNode(words + " "));
    for (const [name, act] of buttons) {
      const button = document.createElement(typeof act === "string" ? "a" : "button");
      button.textContent = name;
      if (typeof act === "string") button.href = act; else { button.type = "button"; button.className = "quiet"; button.addEventListener("click", act); }
      sign.append(button, " ");
    }
  }

  // One row more, made here when the office cannot be asked for it: the last row of its fieldset with the next number and no values.
  function addRow(last) {
    const row = last.cloneNode(true);
    const from = Number(/\[(\d+)\]/.exec(last.querySelector("[name]").name)[1]);
    const next = (text) => text.replace(`[${from}]`, `[${from + 1}]`).replace(`_${from}_`, `_${from + 1}_`);
    for (const part of row.querySelectorAll("*"))
      for (const name of ["id", "name", "for", "aria-describedby", "aria-labelledby"])
        if (part.hasAttribute(name)) part.setAttribute(name, next(part.getAttribute(name)));
    for (const field of row.querySelectorAll("input, select, textarea"))
      if (field.type === "checkbox" || field.type === "radio") field.checked = false;
      else if (field.tagName === "SELECT") field.selectedIndex = 0;
      else if (field.type !== "hidden") field.value = "";
    const legend = row.querySelector("legend");
    if (legend) legend.textContent = legend.textContent.replace(/\d+/, from + 2);
    last.after(row);
    return row;
  }

  const rowsLike = (name) => {
    const start = /^(.*?)\[\d+\]/.exec(name);
    return start ? [...form.querySelectorAll(".reading-row")].filter((r) => [...r.querySelectorAll("[name]")].some((e) => e.name.startsWith(start[1] + "["))) : [];
  };

  function restore(kept) {
    for (const [name] of kept.values)
      for (let tries = 0; tries < 60 && !form.elements[name] && /\[\d+\]/.test(name); tries++) {
        const rows = rowsLike(name);
        if (!rows.length) break;
        addRow(rows[rows.length - 1]);
      }
    const used = new Map();
    for (const [name, value, plain] of kept.values) {
      const all = fields().filter((e) => e.name === name);
      const nth = used.get(name) || 0;
      used.set(name, nth + 1);
      const field = all[nth];
      if (!field || touched.has(name)) continue;
      if (field.type === "checkbox" || field.type === "radio") field.checked = value !== null && field.value === plain;
      else field.value = value;
    }
    const byField = new Map();
    for (const [id, file] of kept.files || []) byField.set(id, [...(byField.get(id) || []), file]);
    for (const [id, files] of byField) {
      const field = document.getElementById(id);
      if (!field || !window.DataTransfer) continue;
      const held = new DataTransfer();
      for (const file of files) held.items.add(file);
      field.files = held.files;
    }
  }

  async function fresh() {
    const answer = await fetch(path, { credentials: "same-origin", cache: "no-store", headers: { "X-Keep": "fresh" } });
    if (!answer.ok) throw new Error("away");
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const theirs = page.querySelector("form[data-keep]");
    return { signedOut: !theirs, token: theirs && theirs.elements["_form"] && theirs.elements["_form"].value, who: page.body.dataset.who || "" };
  }

  async function send(byHand) {
    if (sending) return;
    sending = true;
    say("Sending …");
    try {
      const now = await fresh();
      const kept = read();
      if (now.signedOut) { say("You are signed out. The sheet is kept on this device; sign in and it goes out.", true, ["Sign in", "/sign-in?ReturnUrl=" + encodeURIComponent(path)]); return; }
      if (!byHand && kept && kept.who && kept.who !== now.who) { say(kept.who + " typed this sheet at " + time(kept.at) + " on this device; you are signed in as " + now.who + ".", true, ["Send it", () => send(true)], ["Throw it away", throwAway]); return; }
      if (now.token && form.elements["_form"]) form.elements["_form"].value = now.token;
      const answer = await fetch(form.getAttribute("action") || path, { method: "POST", body: form.enctype === "multipart/form-data" ? new FormData(form) : new URLSearchParams(new FormData(form)), credentials: "same-origin", headers: { "X-Keep": "send" } });
      if (answer.ok && answer.redirected && !new URL(answer.url).pathname.startsWith("/sign-in")) { await forget(); leave(new URL(answer.url)); return; }
      if (answer.ok && !answer.redirected) { keep("typing"); HTMLFormElement.prototype.submit.call(form); return; }
      if (answer.status === 409) { keep("waiting"); setTimeout(() => send(byHand), 3000); return; }
      keep("waiting");
      say("The office did not take the sheet (answer " + answer.status + "). It is kept on this device.", true, ["Try again", () => send(true)]);
    } catch {
      keep("waiting");
    } finally {
      sending = false;
      delete form.dataset.sent;
    }
  }

  // To where the office led, at the part of the sheet that was filled in. The same address again would only scroll.
  function leave(to) {
    to.hash = form.dataset.back || "";
    if (to.pathname + to.search !== location.pathname + location.search) { location.href = to; return; }
    history.replaceState(null, "", to);
    location.reload();
  }

  async function throwAway() { await forget(); location.href = path; }

  for (const kind of ["input", "change"])
    form.addEventListener(kind, (event) => { if (!known) touched.add(event.target.name); keep("typing"); });

  form.addEventListener("submit", async (event) => {
    const by = event.submitter;
    const elsewhere = by && by.hasAttribute("formaction");
    if (elsewhere && navigator.onLine) { keep("typing"); return; }
    event.preventDefault();
    if (elsewhere) { const rows = [...by.parentElement.querySelectorAll(":scope > .reading-row")]; if (rows.length) addRow(rows[rows.length - 1]).querySelector("input, select").focus(); keep("typing"); return; }
    await held;
    keep("waiting");
    send(true);
  });

  // In a table of readings Enter goes to the same reading of the next row, then to the next reading of the first.
  form.addEventListener("keydown", (event) => {
    const field = event.target;
    if (event.key !== "Enter" || field.tagName !== "INPUT" || !field.closest(".reading-row")) return;
    const at = /^(.*)\[(\d+)\]\.(\w+(?:\[\d+\])?)$/.exec(field.name);
    if (!at) return;
    event.preventDefault();
    const down = form.elements[`${at[1]}[${Number(at[2]) + 1}].${at[3]}`];
    const inRow = [...field.closest(".reading-row").querySelectorAll("input:not([type=hidden])")];
    const after = inRow[inRow.indexOf(field) + 1];
    const top = after && form.elements[after.name.replace(/\[\d+\]/, "[0]")];
    const next = down || top;
    if (next && next.focus) { next.focus(); if (next.select) next.select(); }
  });

  window.addEventListener("online", () => { const kept = read(); if (kept && kept.state === "waiting") send(false); });

  // A database that does not answer must not hold up the sheet.
  const held = Promise.race([onDisk((s) => s.get(place)), new Promise((done) => setTimeout(done, 3000))]).then((saved) => {
    let kept = read();
    // Chosen files are held by the database alone.
    if (saved && (!kept || saved.at > kept.at)) { kept = saved; localStorage.setItem(place, JSON.stringify({ ...saved, files: undefined })); }
    else if (saved && kept) kept.files = saved.files;
    known = true;
    if (kept && refusedHere) { keep("typing"); return; }
    if (!kept) { if (touched.size) keep("typing"); else say(untouched()); return; }
    restore(kept);
    if (touched.size) keep("typing");
    else if (kept.state === "waiting") { say(waitingWords(kept)); send(false); }
    else say("Your typing of " + time(kept.at) + " is back" + (kept.who && kept.who !== who ? ", typed by " + kept.who : "") + ". Not saved in the office yet.", false, ["Throw it away", throwAway]);
  });

  const untouched = () => "What you type here is kept on this device until the office has it." + (form.dataset.keep === "ready" ? " The sheet opens without a connection too." : "");

  if (navigator.serviceWorker)
    navigator.serviceWorker.register("/keep-worker.js").then(() => navigator.serviceWorker.ready).then(async () => {
      // The sheet last: one that is on the device has all its parts there.
      const parts = await caches.open("parts");
      await Promise.all([...document.querySelectorAll("script[src], link[rel=stylesheet], link[rel=icon]")].map((part) => parts.add(part.src || part.href)));
      if (!refusedHere && navigator.onLine) await (await caches.open("sheets")).add(new Request(path, { credentials: "same-origin", headers: { "X-Keep": "copy" } }));
      form.dataset.keep = "ready";
      if (known && !read()) say(untouched());
    }).catch(() => { });
})();
