// Drawing on the floor plan. The typed fields stay the truth: whatever is drawn is written into them, and saved by their form.
(() => {
  const unitWord = () => (snap === 0.5 ? "ft" : "m");
  let snap = 0.5;

  function frameOf(svg) {
    const scale = +svg.dataset.scale, x0 = +svg.dataset.x, y0 = +svg.dataset.y;
    return {
      place(event) {
        const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
        return [round((at.x - x0) / scale), round((y0 - at.y) / scale)];
      },
      x: (across) => x0 + across * scale,
      y: (up) => y0 - up * scale,
    };
  }

  const round = (value) => Math.round(value / snap) * snap;
  const text = ([x, y]) => `${+x.toFixed(3)},${+y.toFixed(3)}`;

  // Only plain pairs are drawn on; a walk or lengths with units stay as typed until they are saved.
  function pairs(typed) {
    const words = typed.trim().split(/[\s;]+/).filter((w) => w);
    const read = words.map((w) => w.match(/^(-?\d*\.?\d+),(-?\d*\.?\d+)$/));
    return read.every((r) => r) ? read.map((r) => [+r[1], +r[2]]) : null;
  }

  const form = document.getElementById("plan-form");
  if (form) edit(form, document.getElementById("plan"), document.getElementById("plan-tools"));
  const asked = document.getElementById("coverage-form");
  if (asked) askByClick(asked);
  const scaled = document.getElementById("backdrop-form");
  if (scaled) scaleByClick(scaled, document.getElementById("backdrop"));

  // On the picture's sheet a click sets the first point of the scale, the next one the second.
  function scaleByClick(scaled, svg) {
    const choice = document.getElementById("backdrop-what");
    const fields = ["Input_From", "Input_To"].map((id) => document.getElementById(id));
    const marks = [...svg.querySelectorAll("[data-point]")];
    const left = +svg.dataset.x, top = +svg.dataset.y, scale = +svg.dataset.scale;
    choice.parentElement.hidden = false;
    svg.classList.add("asking");
    const show = (i) => {
      const at = pairs(fields[i].value);
      marks[i].setAttribute("visibility", at && at.length === 1 ? "visible" : "hidden");
      if (at && at.length === 1) marks[i].setAttribute("transform", `translate(${left + at[0][0] * scale} ${top + at[0][1] * scale})`);
    };
    fields.forEach((field, i) => field.addEventListener("input", () => show(i)));
    svg.addEventListener("click", (event) => {
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const x = Math.round((at.x - left) / scale), y = Math.round((at.y - top) / scale);
      if (x < 0 || y < 0) return;
      const field = fields[+choice.value];
      field.value = `${x},${y}`;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      choice.value = choice.value === "0" ? "1" : "0";
    });
  }

  // On the coverage sheet a click on a map tries a further suction point there.
  function askByClick(asked) {
    for (const svg of document.querySelectorAll("svg.plan")) {
      snap = document.querySelector("#At + .unit").textContent === "ft" ? 0.5 : 0.1;
      const frame = frameOf(svg);
      svg.classList.add("asking");
      svg.addEventListener("click", (event) => {
        asked.elements.At.value = text(frame.place(event));
        asked.requestSubmit();
      });
    }
  }

  function edit(form, svg, tools) {
    snap = document.getElementById("Input_Sump").parentElement.textContent.includes("ft") ? 0.5 : 0.1;
    const frame = frameOf(svg);
    const undo = [];
    const shapes = new Map();
    let line = null; // the footing that is being drawn: index of its line

    const floors = [...form.querySelectorAll(".plan-area textarea")];
    const footings = document.getElementById("Input_Footings");
    const points = [document.getElementById("Input_Sump"), ...form.querySelectorAll("input[id^=Input_Holes_][id$=__At], input[id^=Input_New_][id$=__At]")];
    const label = (field) => form.querySelector(`label[for="${field.id}"]`).firstChild.textContent;
    const nameOf = (field) => floors.includes(field)
      ? (field.closest(".plan-area").querySelector("input[id$=__Name]").value || `floor ${floors.indexOf(field) + 1}`) + ": add corners"
      : field === footings ? "a footing: its two ends" : `place ${label(field)}`;

    const choice = document.createElement("select");
    choice.id = "plan-what";
    const caption = Object.assign(document.createElement("label"), { htmlFor: choice.id, textContent: "Click or tap draws " });
    const fields = [...floors, footings, ...points];
    fields.forEach((field, i) => choice.append(new Option(nameOf(field), i)));
    const back = Object.assign(document.createElement("button"), { type: "button", className: "second", textContent: "Undo" });
    const drop = Object.assign(document.createElement("button"), { type: "button", className: "second", textContent: "Take out the last corner" });
    const told = Object.assign(document.createElement("span"), { className: "soft" });
    told.setAttribute("role", "status");
    tools.append(caption, choice, back, drop, told);
    tools.hidden = false;
    svg.classList.add("drawing-on");
    const empty = floors.findIndex((f) => !f.value.trim());
    choice.value = String(empty >= 0 ? empty : points.length > 1 ? fields.indexOf(points[1]) : 0);

    const chosen = () => fields[+choice.value];

    function put(field, value, remember = true) {
      if (remember) undo.push([field, field.value]);
      field.value = value;
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }

    back.addEventListener("click", () => {
      const last = undo.pop();
      if (last) put(last[0], last[1], false);
      line = null;
    });

    drop.addEventListener("click", () => {
      const field = chosen();
      const at = pairs(field.value);
      if (at && at.length) put(field, at.slice(0, -1).map(text).join(" "));
    });

    choice.addEventListener("change", () => { line = null; draw(); });

    function addAt(place) {
      const field = chosen();
      if (field === footings) return addFooting(place);
      if (!floors.includes(field)) { put(field, text(place)); return next(field); }
      const corners = pairs(field.value);
      if (!corners) { told.textContent = "This floor is typed as a walk; save it first, then draw on."; return; }
      put(field, [...corners, place].map(text).join(" "));
    }

    function addFooting(place) {
      const lines = footings.value.split("\n").filter((l) => l.trim());
      if (line === null) { lines.push(text(place)); line = lines.length - 1; }
      else { lines[line] += " " + text(place); line = null; }
      put(footings, lines.join("\n"));
    }

    // After one hole is placed the next without a place is offered.
    function next(field) {
      const open = points.slice(points.indexOf(field) + 1).find((p) => !p.value.trim());
      if (open) choice.value = String(fields.indexOf(open));
    }

    const node = (name, attributes) => {
      const made = document.createElementNS("http://www.w3.org/2000/svg", name);
      for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
      return made;
    };

    const layer = svg.appendChild(node("g", {}));
    const path = (corners, closed) => corners.length ? "M" + corners.map(([x, y]) => `${frame.x(x)} ${frame.y(y)}`).join("L") + (closed ? "Z" : "") : "";

    function shapeOf(field, kind) {
      if (shapes.has(field)) return shapes.get(field);
      const drawn = svg.querySelector(`[data-field="${field.id}"]`) || svg.insertBefore(kind(), layer);
      shapes.set(field, drawn);
      return drawn;
    }

    // Handles keep their size on the screen, however large the drawing is shown.
    const pixel = () => svg.viewBox.baseVal.width / svg.getBoundingClientRect().width;

    function grip(field, x, y, seen, move) {
      const at = { cx: frame.x(x), cy: frame.y(y) };
      if (seen) layer.append(node("circle", { class: "corner", r: 5 * pixel(), ...at }));
      const handle = node("circle", { class: "grip", r: 13 * pixel(), ...at });
      handle.addEventListener("pointerdown", (event) => {
        event.preventDefault();
        event.stopPropagation();
        const before = field.value;
        const drag = (moved) => move(frame.place(moved));
        const end = () => {
          removeEventListener("pointermove", drag);
          if (field.value !== before) undo.push([field, before]);
          draw();
        };
        addEventListener("pointermove", drag);
        addEventListener("pointerup", end, { once: true });
        addEventListener("pointercancel", end, { once: true });
      });
      handle.addEventListener("click", (event) => event.stopPropagation());
      layer.append(handle);
    }

    let dragging = false;
    addEventListener("pointerdown", () => { dragging = true; }, true);
    addEventListener("pointerup", () => { dragging = false; }, true);

    function draw() {
      if (!dragging) layer.replaceChildren();
      for (const field of floors) {
        const corners = pairs(field.value);
        if (!corners) continue;
        const shape = shapeOf(field, () => node("path", { class: "floor" }));
        shape.setAttribute("d", path(corners, corners.length > 2));
        shape.classList.toggle("chosen", field === chosen());
        if (dragging) continue;
        corners.forEach(([x, y], i) => grip(field, x, y, true, (to) => {
          const now = pairs(field.value);
          now[i] = to;
          put(field, now.map(text).join(" "), false);
        }));
      }
      const ways = footings.value.split("\n").map(pairs).filter((p) => p && p.length);
      for (const old of svg.querySelectorAll("path.footing")) old.remove();
      for (const way of ways) svg.insertBefore(node("path", { class: "footing", d: path(way, false) }), layer);
      for (const field of points) {
        const at = pairs(field.value);
        const mark = shapeOf(field, () => {
          const name = label(field).replace(/^(Suction|Test) hole,? /, "");
          const made = node("g", { class: "mark " + (field.id === "Input_Sump" ? "sump" : label(field).startsWith("Suction") ? "suction" : "testhole") });
          const words = node("text", { class: "mark-words live", x: 9, dy: ".35em" });
          words.textContent = name;
          made.append(node("circle", { r: 4.5 }), words);
          return made;
        });
        const placed = at && at.length === 1;
        mark.setAttribute("visibility", placed ? "visible" : "hidden");
        if (!placed) continue;
        const [x, y] = at[0];
        mark.setAttribute("transform", `translate(${frame.x(x)} ${frame.y(y)})`);
        if (!dragging) grip(field, x, y, false, (to) => put(field, text(to), false));
      }
    }

    // The words on the drawing belong to what was saved; once a field changes they would tell of something else.
    form.addEventListener("input", (event) => {
      if (!fields.includes(event.target)) return;
      for (const words of svg.querySelectorAll("text:not(.axis):not(.live)")) words.classList.add("stale");
      told.textContent = event.target.value.trim() ? `${event.target.value.trim().split(/\s+/).pop()} ${unitWord()}` : "";
      draw();
    });
    svg.addEventListener("click", (event) => addAt(frame.place(event)));
    draw();
  }
})();
