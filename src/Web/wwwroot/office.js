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
  document.addEventListener("input", (event) => { if (event.target.form && event.target.form.method === "post") typed = true; });
  document.addEventListener("submit", () => { typed = false; });
  window.addEventListener("beforeunload", (event) => { if (typed) event.preventDefault(); });

  // "/" goes to the search box, unless someone is typing; switch off with localStorage "no-keys".
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || /^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName)) return;
    if (localStorage.getItem("no-keys")) return;
    const find = document.getElementById("find");
    if (find) { event.preventDefault(); find.focus(); }
  });
})();
