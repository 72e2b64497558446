// The drawing and first numbers of a route, or of a mouth, follow the typing. Without this script a button that saves nothing does it.
(() => {
  const look = document.querySelector("[data-from]");
  const form = document.getElementById(look?.dataset.form ?? "route-form");
  if (!look || !form) return;
  let waiting, running;
  const refresh = async () => {
    running?.abort();
    running = new AbortController();
    const typed = new FormData(form);
    typed.delete("_once");
    try {
      const answer = await fetch(look.dataset.from, { method: "POST", body: typed, signal: running.signal });
      if (answer.ok && !answer.redirected) look.innerHTML = await answer.text();
    } catch { /* Without a connection the last drawing stays. */ }
  };
  form.addEventListener("input", () => { clearTimeout(waiting); waiting = setTimeout(refresh, 50); });
})();
