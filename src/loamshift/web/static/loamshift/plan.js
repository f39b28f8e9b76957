// The plan page follows the finger: it reads between a few courses worked out ahead.
const form = document.getElementById("plan");
const place = document.getElementById("sliders");
const dark = window.matchMedia("(prefers-color-scheme: dark)");
const BANDS = ["q05", "q25", "q50", "q75", "q95"];
let data = null;
let view = null;
let frame = 0;

function query() {
  return new URLSearchParams(new FormData(form)).toString();
}

async function begin() {
  if (!place || !form) return;
  const width = Math.min(620, Math.max(300, Math.floor(place.clientWidth)));
  const tone = dark.matches ? "dark" : "light";
  const told = await fetch(`${place.dataset.from}?${query()}&tone=${tone}&width=${width}`, {
    headers: { Accept: "application/json" },
  });
  if (!told.ok || told.status === 204) { place.hidden = true; return; }
  data = await told.json();
  await draw();
  place.hidden = false;
  setUp("aim", data.aims.length - 1, nearest(data.aims.map((step) => step.aim), data.aim));
  setUp("first", 100, 100 * (1 / data.shares[data.shares.length - 1]));
  say();
}

async function draw() {
  const holder = document.getElementById("live-course");
  const made = await window.vegaEmbed(holder, data.spec, {
    ast: true, actions: false, defaultStyle: false, renderer: "svg",
    tooltip: { disableDefaultStyle: true },
  });
  view = made.view;
  for (const [name, rows] of Object.entries(data.rows)) view.data(name, rows);
  show(data.whole, 1);
}

function setUp(name, most, at) {
  const slider = document.getElementById(`slide-${name}`);
  slider.max = String(most);
  slider.value = String(Math.round(at));
}

function nearest(values, wanted) {
  let best = 0;
  values.forEach((value, index) => {
    if (Math.abs(value - wanted) < Math.abs(values[best] - wanted)) best = index;
  });
  return best;
}

function between(courses, share) {
  const shares = data.shares;
  const most = shares[shares.length - 1];
  const at = Math.min(Math.max(share, 0), most);
  let upper = shares.findIndex((one) => one >= at);
  if (upper <= 0) upper = 1;
  const lower = upper - 1;
  const weight = (at - shares[lower]) / (shares[upper] - shares[lower]);
  const rows = data.rows.course.map((row) => ({ ...row }));
  for (const band of BANDS) {
    const low = courses[lower][band], high = courses[upper][band];
    for (let week = 0; week < rows.length; week += 1) {
      rows[week][band] = low[week] + weight * (high[week] - low[week]);
    }
  }
  return rows;
}

function show(courses, share) {
  const rows = between(courses, share);
  view.data("course", rows);
  const end = rows[rows.length - 1];
  if (data.rows.end_labels_0) {
    view.data("end_labels_0", data.rows.end_labels_0.map((row) => ({ ...row, y: end.q50 })));
  }
  return view.runAsync();
}

function say() {
  const step = data.aims[Number(document.getElementById("slide-aim").value)];
  document.getElementById("said-aim").textContent = `${step.aim.toFixed(1)}: ${step.said}`;
  const share = firstShare();
  const rates = data.first_rates;
  document.getElementById("said-first").textContent = rates[nearest(data.shares, share)];
}

function firstShare() {
  const slider = document.getElementById("slide-first");
  return (Number(slider.value) / 100) * data.shares[data.shares.length - 1];
}

function follow(event) {
  if (!data || frame) return;
  frame = requestAnimationFrame(async () => {
    frame = 0;
    const started = performance.now();
    if (event.target.id === "slide-aim") {
      await show(data.whole, data.aims[Number(event.target.value)].share);
    } else {
      await show(data.first, firstShare());
    }
    say();
    performance.measure("follow", { start: started, end: performance.now() });
  });
}

function settle(event) {
  if (!data || event.target.id !== "slide-aim") return;
  const field = document.getElementById("f-aim-target_ph");
  field.value = data.aims[Number(event.target.value)].aim.toFixed(1);
  field.dispatchEvent(new Event("change", { bubbles: true }));
}

if (place) {
  place.addEventListener("input", follow);
  place.addEventListener("change", settle);
  begin();
  dark.addEventListener("change", begin);
  document.body.addEventListener("htmx:afterSettle", (event) => {
    if (event.target.id === "letter") begin();
  });
}
