// Small improvements over plain forms and links; everything works without them.
(() => {
  const refusals = document.getElementById("refusals");
  if (refusals) refusals.focus();

  // A second click while the first is on its way does nothing; the server guards it again.
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.method !== "post") return;
    if (form.dataset.sent) { event.preventDefault(); return; }
    form.dataset.sent = "1";
    setTimeout(() => delete form.dataset.sent, 4000);
  });

  window.addEventListener("pageshow", () => {
    for (const form of document.querySelectorAll("form[data-sent]")) delete form.dataset.sent;
  });

  // Leaving a page with unsaved typing asks first.
  let typed = false;
  document.addEventListener("input", (event) => { const form = event.target.form; if (form && form.method === "post" && form.dataset.keep === undefined) typed = true; });
  document.addEventListener("submit", () => { typed = false; });
  window.addEventListener("beforeunload", (event) => { if (typed) event.preventDefault(); });

  // A system that makes an appliance spill is not left running: said at once, also without a connection.
  const draft = document.getElementById("backdraft");
  const running = draft && draft.querySelector("input[type=checkbox][name='Input.LeftRunning']");
  const spills = () => { if ([...draft.querySelectorAll("select")].some((s) => s.value === "Spills")) running.checked = false; };
  if (running) draft.addEventListener("change", spills);

  // What is folded away on the screen stands on the paper.
  window.addEventListener("beforeprint", () => { for (const part of document.querySelectorAll("details.fold:not([open])")) { part.open = true; part.dataset.forPrint = "1"; } });
  window.addEventListener("afterprint", () => { for (const part of document.querySelectorAll("details[data-for-print]")) { part.open = false; delete part.dataset.forPrint; } });

  // Signing out takes the kept sheets off the device; what was typed into them and not sent stays.
  document.addEventListener("submit", (event) => { if (event.target.action.endsWith("/account/sign-out") && window.caches) caches.delete("sheets"); });

  // A sheet filled in without a connection is not forgotten: every page says that it waits.
  for (let i = 0; i < localStorage.length; i++) {
    const place = localStorage.key(i);
    if (!place.startsWith("kept:") || place === "kept:" + location.pathname.replace(/\/$/, "") + location.search) continue;
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(place)); } catch { continue; }
    if (!kept || kept.state !== "waiting" || !document.querySelector("header.top")) continue;
    const note = document.createElement("p");
    note.className = "caution kept";
    const link = document.createElement("a");
    link.href = place.slice(5);
    link.textContent = kept.title.split(" · ")[0];
    note.append("Not sent yet, kept on this device: ", link);
    document.getElementById("main").prepend(note);
  }

  // "/" goes to the search box, unless someone is typing; switch off with localStorage "no-keys".
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || /^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName)) return;
    if (localStorage.getItem("no-keys")) return;
    const find = document.getElementById("find");
    if (find) { event.preventDefault(); find.focus(); }
  });
})();
