// The route's drawing and first numbers follow the typing. Without this script the button "Compute, save nothing" does it.
(() => {
  const look = document.getElementById("route-look");
  const form = document.getElementById("route-form");
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
