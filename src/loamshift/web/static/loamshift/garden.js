// Drawing the plan of a garden. The table of areas is the truth: whatever is drawn is written
// there, and the form is sent as if it had been typed.
const figure = document.getElementById("plan-drawing");
const ground = figure && figure.querySelector("svg.ground");
const rows = document.getElementById("plan-rows");
const said = document.getElementById("plan-said");
const SVG = "http://www.w3.org/2000/svg";
const HANDLE_PX = 7;
const LINE_PX = 17;
const LEAST_M = 0.2;

const perMetre = ground ? Number(ground.dataset.pxPerM) : 1;
const unit = figure ? Number(figure.dataset.unitM) : 1;
const step = figure && figure.dataset.unit === "ft" ? unit / 2 : 0.1;
const most = ground
  ? { x: Number(ground.dataset.groundWidth) / perMetre, y: Number(ground.dataset.groundHeight) / perMetre }
  : { x: 0, y: 0 };
let chosen = null;
let held = null;

function field(row, name) { return row.querySelector(`[name="${row.dataset.area}.${name}"]`); }

function pointsOf(row) {
  return field(row, "points").value.split(" ").filter(Boolean)
    .map((pair) => pair.split(",").map(Number));
}

function boxOf(points) {
  const xs = points.map((p) => p[0]), ys = points.map((p) => p[1]);
  const left = Math.min(...xs), top = Math.min(...ys);
  return { left, top, width: Math.max(...xs) - left, length: Math.max(...ys) - top };
}

function shown(metres) { return String(Number((metres / unit).toFixed(2))); }

function write(row, points) {
  field(row, "points").value = points.map((p) => p.map((v) => Number(v.toFixed(3))).join(",")).join(" ");
  const box = boxOf(points);
  for (const name of ["left", "top", "width", "length"]) field(row, name).value = shown(box[name]);
  tell("unsaved");
}

function erase(row) {
  for (const name of ["points", "left", "top", "width", "length", "name", "bed"]) field(row, name).value = "";
  if (chosen === row) chosen = null;
  tell("gone");
  draw();
}

function tell(what) {
  said.textContent = [figure.dataset[`say${what[0].toUpperCase()}${what.slice(1)}`], what === "unsaved" ? "" : figure.dataset.sayUnsaved].join(" ").trim();
}

function filled() { return [...rows.children].filter((row) => pointsOf(row).length > 2); }

function freeRow() {
  const free = [...rows.children].find((row) =>
    !["points", "width", "length", "name", "bed"].some((name) => field(row, name).value));
  if (free) return free;
  const last = rows.lastElementChild;
  const number = Math.max(...[...rows.children].map((row) => Number(row.dataset.area.split(".")[1]))) + 1;
  const row = last.cloneNode(true);
  row.dataset.area = `area.${number}`;
  row.querySelector("th").textContent = String(rows.children.length + 1);
  for (const one of row.querySelectorAll("[name]")) {
    one.name = `area.${number}.${one.name.split(".")[2]}`;
    one.value = "";
    one.removeAttribute("aria-invalid");
    if (one.ariaLabel) one.ariaLabel = one.ariaLabel.replace(/\d+$/, String(rows.children.length + 1));
  }
  row.querySelectorAll(".fault").forEach((fault) => fault.remove());
  rows.append(row);
  return row;
}

function make(name, attributes, parent) {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (parent) parent.append(node);
  return node;
}

function areaOf(points) {
  let twice = 0;
  points.forEach(([x, y], i) => {
    const [a, b] = points[(i + 1) % points.length];
    twice += x * b - a * y;
  });
  return Math.abs(twice) / 2;
}

function labels(row, points) {
  const bed = field(row, "bed").selectedOptions[0];
  const called = field(row, "name").value || (bed && bed.value ? bed.textContent : "");
  const ph = bed && bed.dataset.ph ? `pH ${bed.dataset.ph}` : "";
  const size = areaOf(points) / unit ** 2;
  const area = `${Number(size.toPrecision(3))} ${figure.dataset.unit === "ft" ? "sq ft" : "m²"}`;
  return { called, ph, area, side: bed ? bed.dataset.side || "" : "" };
}

function draw() {
  const layer = ground.querySelector(".areas");
  const focus = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.focus : "";
  layer.replaceChildren();
  for (const row of filled()) drawArea(layer, row);
  if (chosen && filled().includes(chosen)) drawHandles(layer, chosen);
  const empty = figure.querySelector(".empty");
  if (empty) empty.hidden = layer.children.length > 0;
  if (focus) {
    const again = layer.querySelector(`[data-focus="${focus}"]`);
    if (again) again.focus();
  }
}

function wide(text, size) { return text.length * 0.55 * size; }

function brief(number, ph, room, size) {
  const text = ph ? `${number}: ${ph}` : number;
  return wide(text, size) <= room ? text : number;
}

function broken(text, room) {
  const lines = [];
  for (const word of text.split(" ")) {
    const joined = lines.length ? `${lines[lines.length - 1]} ${word}` : word;
    if (lines.length && (wide(joined, 14) <= room || lines.length === 2)) lines[lines.length - 1] = joined;
    else lines.push(word);
  }
  return lines;
}

function drawArea(layer, row) {
  const points = pointsOf(row), box = boxOf(points);
  const text = labels(row, points);
  const all = [text.called, text.ph, text.area].filter(Boolean);
  const group = make("g", {
    class: `area ${text.side}${row === chosen ? " chosen" : ""}`, tabindex: "0", role: "button",
    "aria-label": all.join(", "), "data-focus": row.dataset.area,
  }, layer);
  make("polygon", { points: points.map((p) => p.map((v) => (v * perMetre).toFixed(2)).join(",")).join(" ") }, group);
  const room = box.width * perMetre - 8, rowsHere = Math.floor((box.length * perMetre - 4) / LINE_PX);
  const number = row.querySelector("th").textContent;
  let lines = [...broken(text.called, room), text.ph, text.area].filter(Boolean);
  if (lines.length > rowsHere || lines.some((one) => wide(one, 14) > room)) lines = [brief(number, text.ph, room, 14)];
  const x = (box.left + box.width / 2) * perMetre, y = (box.top + box.length / 2) * perMetre;
  lines.forEach((one, i) => {
    group.append(" ");
    make("text", { class: "full", x: x.toFixed(2), y: (y + (i - (lines.length - 1) / 2) * LINE_PX).toFixed(2) }, group).textContent = one;
  });
  make("text", { "aria-hidden": "true", class: "short", x: x.toFixed(2), y: y.toFixed(2) }, layer).textContent = brief(number, text.ph, room, 21);
  group.addEventListener("pointerdown", (event) => grab(event, row, "area"));
  group.addEventListener("focus", () => { if (chosen !== row && !held) { chosen = row; draw(); } });
  group.addEventListener("keydown", (event) => areaKey(event, row));
}

function drawHandles(layer, row) {
  const points = pointsOf(row);
  points.forEach(([x, y], i) => {
    const [a, b] = points[(i + 1) % points.length];
    const middle = make("circle", { class: "middle", cx: ((x + a) / 2) * perMetre, cy: ((y + b) / 2) * perMetre, r: HANDLE_PX - 2 }, layer);
    middle.addEventListener("pointerdown", (event) => {
      const grown = pointsOf(row);
      grown.splice(i + 1, 0, [(x + a) / 2, (y + b) / 2]);
      write(row, grown);
      grab(event, row, i + 1);
    });
  });
  points.forEach(([x, y], i) => {
    const corner = make("circle", {
      class: "corner", cx: x * perMetre, cy: y * perMetre, r: HANDLE_PX, tabindex: "0", role: "button",
      "aria-label": `${figure.dataset.sayCorner} ${i + 1}`, "data-focus": `${row.dataset.area}-${i}`,
    }, layer);
    corner.addEventListener("pointerdown", (event) => grab(event, row, i));
    corner.addEventListener("keydown", (event) => cornerKey(event, row, i));
  });
}

function at(event) {
  const frame = ground.getBoundingClientRect(), view = ground.viewBox.baseVal;
  return [
    ((event.clientX - frame.left) * view.width) / frame.width / perMetre,
    ((event.clientY - frame.top) * view.height) / frame.height / perMetre,
  ];
}

function snap(value, top) { return Math.min(Math.max(Math.round(value / step) * step, 0), top); }
function snapped([x, y]) { return [snap(x, most.x), snap(y, most.y)]; }

function moved(points, dx, dy) {
  const box = boxOf(points);
  const x = Math.min(Math.max(dx, -box.left), most.x - box.left - box.width);
  const y = Math.min(Math.max(dy, -box.top), most.y - box.top - box.length);
  return points.map(([a, b]) => [a + x, b + y]);
}

function grab(event, row, what) {
  if (event.button) return;
  if (event.pointerType === "touch" && what === "area" && row !== chosen) {
    chosen = row; // a finger may only be scrolling past: the first tap chooses, the next one moves
    draw();
    return;
  }
  event.preventDefault();
  event.stopPropagation();
  chosen = row;
  held = { row, what, from: at(event), points: pointsOf(row) };
  ground.setPointerCapture(event.pointerId);
  draw();
  const focus = what === "area" ? row.dataset.area : `${row.dataset.area}-${what}`;
  const again = ground.querySelector(`[data-focus="${focus}"]`);
  if (again) again.focus({ preventScroll: true });
}

function begin(event) {
  const from = at(event);
  if (event.button || from[1] > most.y) return;
  chosen = null;
  if (event.pointerType === "touch") { document.activeElement?.blur(); draw(); return; }
  event.preventDefault();
  held = { row: null, what: "new", from: snapped(from), points: [] };
  ground.setPointerCapture(event.pointerId);
  draw();
}

function follow(event) {
  if (!held) return;
  const here = at(event);
  if (held.what === "new") {
    const [x0, y0] = held.from, [x1, y1] = snapped(here);
    if (!held.row && (Math.abs(x1 - x0) < LEAST_M || Math.abs(y1 - y0) < LEAST_M)) return;
    held.row = held.row || freeRow();
    chosen = held.row;
    const left = Math.min(x0, x1), top = Math.min(y0, y1);
    const right = Math.max(x0, x1, left + step), foot = Math.max(y0, y1, top + step);
    write(held.row, [[left, top], [right, top], [right, foot], [left, foot]]);
  } else if (held.what === "area") {
    const dx = here[0] - held.from[0], dy = here[1] - held.from[1];
    if (Math.hypot(dx, dy) * perMetre < 4 && !held.far) return;
    held.far = true;
    write(held.row, moved(held.points, Math.round(dx / step) * step, Math.round(dy / step) * step));
  } else {
    const points = pointsOf(held.row);
    points[held.what] = snapped(here);
    write(held.row, points);
  }
  draw();
}

function drop() {
  if (!held) return;
  const { row, what } = held;
  held = null;
  if (what === "new" && row) {
    tell("drawn");
    draw();
    const area = ground.querySelector(`[data-focus="${row.dataset.area}"]`);
    if (area) area.focus({ preventScroll: true });
  } else draw();
}

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function areaKey(event, row) {
  const arrow = ARROWS[event.key];
  if (arrow) {
    const far = event.shiftKey ? unit : step;
    write(row, moved(pointsOf(row), arrow[0] * far, arrow[1] * far));
    draw();
  } else if (event.key === "Enter" || event.key === " ") {
    chosen = row;
    draw();
    ground.querySelector(`[data-focus="${row.dataset.area}-0"]`).focus();
  } else if (event.key === "Delete" || event.key === "Backspace") {
    erase(row);
    (ground.querySelector(".area") || document.getElementById("plan-add")).focus();
  } else return;
  event.preventDefault();
}

function cornerKey(event, row, i) {
  const points = pointsOf(row), arrow = ARROWS[event.key];
  if (arrow) {
    const far = event.shiftKey ? unit : step;
    points[i] = snapped([points[i][0] + arrow[0] * far, points[i][1] + arrow[1] * far]);
    write(row, points);
    draw();
  } else if ((event.key === "Delete" || event.key === "Backspace") && points.length > 3) {
    points.splice(i, 1);
    write(row, points);
    draw();
    ground.querySelector(`[data-focus="${row.dataset.area}-${Math.max(0, i - 1)}"]`).focus();
  } else if (event.key === "Insert" || event.key === "+") {
    const [a, b] = points[(i + 1) % points.length];
    points.splice(i + 1, 0, [(points[i][0] + a) / 2, (points[i][1] + b) / 2]);
    write(row, points);
    draw();
    ground.querySelector(`[data-focus="${row.dataset.area}-${i + 1}"]`).focus();
  } else if (event.key === "Escape") {
    ground.querySelector(`[data-focus="${row.dataset.area}"]`).focus();
  } else return;
  event.preventDefault();
}

function typed(event) {
  const row = event.target.closest("tr");
  const key = event.target.name.split(".")[2];
  if (["left", "top", "width", "length"].includes(key)) stretch(row);
  tell("unsaved");
  draw();
}

function stretch(row) {
  const read = (name) => Number(field(row, name).value.replace(",", ".")) * unit;
  const width = read("width"), length = read("length"), left = read("left"), top = read("top");
  if (![width, length, left, top].every(Number.isFinite)) return;
  if (width <= 0 || length <= 0 || left < 0 || top < 0) { field(row, "points").value = ""; return; }
  const old = pointsOf(row);
  const points = old.length > 2 ? old : [[0, 0], [1, 0], [1, 1], [0, 1]];
  const box = boxOf(points);
  field(row, "points").value = points.map(([x, y]) => [
    left + ((x - box.left) * width) / (box.width || 1),
    top + ((y - box.top) * length) / (box.length || 1),
  ].map((v) => Number(v.toFixed(3))).join(",")).join(" ");
}

function add() {
  const row = freeRow();
  const width = Math.min(2 * unit * (unit < 1 ? 3 : 1), most.x), length = Math.min(width / 2, most.y);
  const left = snap((most.x - width) / 2, most.x), top = snap((most.y - length) / 2, most.y);
  write(row, [[left, top], [left + width, top], [left + width, top + length], [left, top + length]]);
  chosen = row;
  tell("drawn");
  draw();
  ground.querySelector(`[data-focus="${row.dataset.area}"]`).focus();
}

if (ground && rows && figure.dataset.may) {
  ground.classList.add("drawable");
  ground.addEventListener("pointerdown", begin);
  ground.addEventListener("pointermove", follow);
  ground.addEventListener("pointerup", drop);
  ground.addEventListener("pointercancel", drop);
  rows.addEventListener("change", typed);
  const adder = document.getElementById("plan-add");
  adder.hidden = false;
  adder.addEventListener("click", add);
  document.getElementById("plan-help").hidden = false;
  draw();
}
