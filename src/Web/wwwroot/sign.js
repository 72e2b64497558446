// Draws a signature with pen, finger or mouse, and keeps it as strokes in a hidden field: "x,y x,y;x,y".
(() => {
  const place = document.querySelector("[data-sign]"), field = document.getElementById("Input_Strokes");
  if (!place || !field) return;
  place.hidden = false;
  const pad = place.querySelector("canvas"), brush = pad.getContext("2d");
  let strokes = [], drawing = null;

  function paint() {
    pad.width = pad.clientWidth; pad.height = pad.clientHeight;
    brush.lineWidth = 2.2; brush.lineCap = brush.lineJoin = "round"; brush.strokeStyle = getComputedStyle(pad).color;
    for (const stroke of strokes) { brush.beginPath(); stroke.forEach(([x, y], i) => i ? brush.lineTo(x, y) : brush.moveTo(x, y)); brush.stroke(); }
  }

  const at = (event) => { const box = pad.getBoundingClientRect(); return [event.clientX - box.left, event.clientY - box.top].map((n) => Math.max(0, Math.round(n))); };
  const tell = () => { field.value = strokes.map((s) => s.map((p) => p.join(",")).join(" ")).join(";"); field.dispatchEvent(new Event("input", { bubbles: true })); };
  const read = () => { strokes = field.value.split(";").filter(Boolean).map((s) => s.split(" ").map((p) => p.split(",").map(Number))); paint(); };

  pad.addEventListener("pointerdown", (event) => { event.preventDefault(); pad.setPointerCapture(event.pointerId); strokes.push(drawing = [at(event)]); });
  pad.addEventListener("pointermove", (event) => { if (!drawing) return; drawing.push(at(event)); paint(); });
  for (const end of ["pointerup", "pointercancel"]) pad.addEventListener(end, () => { if (drawing) tell(); drawing = null; });
  place.querySelector("button").addEventListener("click", () => { strokes = []; paint(); tell(); });
  read();
  setTimeout(read, 400); // what was kept on the device comes back a moment after the page
  window.addEventListener("resize", paint);
})();
