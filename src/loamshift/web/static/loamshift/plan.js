// The plan page: only what changed goes into the address; a change is answered at once, the course
// comes after; the course follows the finger.
const form = document.getElementById("plan");
const sliders = document.getElementById("sliders");
const verdict = document.getElementById("verdict");
const $ = (id) => document.getElementById(id);
const SPACE = 4;
let data = null;
let asked = null;
let frame = 0;

// ---- fields -----------------------------------------------------------------------------------

/** What is kept of a field, said only where it is not what stood there when the page came. */
function keptOf(field) {
  const first = field.options ? [...field.options].find((one) => one.defaultSelected) : null;
  return field.dataset.kept ?? (field.options ? first?.value : field.defaultValue) ?? "";
}

function isChange(field) {
  return field.value.trim() !== keptOf(field);
}

function query() {
  const said = new URLSearchParams();
  for (const field of form.elements) {
    if (field.name && (field.type === "hidden" || isChange(field))) said.append(field.name, field.value);
  }
  return said.toString();
}

document.addEventListener("htmx:configRequest", (event) => {
  if (event.detail.elt !== form) return;
  isOwn = false;
  for (const field of form.elements) {
    if (field.name && field.type !== "hidden" && !isChange(field)) delete event.detail.parameters[field.name];
  }
});

function markFaults() {
  for (const field of form.elements) {
    const told = field.name && $(`${field.id}-fault`);
    if (!told) continue;
    if (told.querySelector("[data-fault]")) field.setAttribute("aria-invalid", "true");
    else field.removeAttribute("aria-invalid");
    if (told.textContent) field.setAttribute("aria-describedby", told.id);
    else field.removeAttribute("aria-describedby");
  }
}

let known = null;
async function suggest(event) {
  const wanted = event.target.dataset?.suggests;
  if (!wanted || event.target.list || wanted === "places") return;
  known ??= fetch((form ?? event.target.form).dataset.known).then((told) => told.json());
  offer(event.target, wanted, (await known)[wanted]);
}

function offer(field, wanted, names) {
  if (!$(wanted)) {
    const list = document.createElement("datalist");
    list.id = wanted;
    document.body.append(list);
  }
  $(wanted).replaceChildren(...names.map((name) => Object.assign(document.createElement("option"), { value: name })));
  if (!field.list) field.setAttribute("list", wanted);
}

// ---- places: there are too many to send at once, so those that begin as typed ------------------

let typing = 0;
let looked = null;
function lookUp(event) {
  const field = event.target;
  if (field.dataset?.suggests !== "places") return;
  clearTimeout(typing);
  typing = setTimeout(async () => {
    looked?.abort();
    looked = new AbortController();
    const from = new URL((form ?? field.form).dataset.places, location.href);
    from.searchParams.set("typed", field.value);
    try {
      const told = await fetch(from, { signal: looked.signal });
      if (told.ok) offer(field, "places", (await told.json()).places);
    } catch (fault) {
      if (fault.name !== "AbortError") field.removeAttribute("list");
    }
  }, 120);
}

/** One of several places of a name, pressed under the field, sets the field. */
function choose(event) {
  const chosen = event.target.closest?.("a[data-sets]");
  if (!chosen || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  const field = $(chosen.dataset.sets);
  field.value = chosen.textContent;
  field.focus();
  field.dispatchEvent(new Event("change", { bubbles: true }));
}

// ---- the answer at once, the course after it --------------------------------------------------

const WAIT_FOR_COURSE = ["strip", "beside", "sliders", "course", "sections"];

let isOwn = true;

/** What belongs to the facts of before stays in its place, faint, until its own answer is there. */
function arrived() {
  const waits = $("coming").firstElementChild !== null;
  isOwn ||= !waits;
  for (const id of WAIT_FOR_COURSE) {
    $(id).toggleAttribute("inert", waits && !isOwn && id !== "sliders"); // a finger may still be on one
    if (waits && !isOwn) $(id).setAttribute("aria-busy", "true");
    else $(id).removeAttribute("aria-busy");
  }
  asked?.abort();
  data = null;
  if (!waits) begin();
}

/** A piece that says what stands there already is left alone: nothing flickers or is told twice. */
function leaveAlone(event) {
  const { target, fragment } = event.detail;
  if (target.id === "coming") return;
  const whole = fragment instanceof DocumentFragment && fragment.firstElementChild?.id === target.id;
  if ((whole ? fragment.firstElementChild : fragment).innerHTML === target.innerHTML) event.detail.shouldSwap = false;
}

function failed(event) {
  if (!$("coming").contains(event.target)) return;
  if (event.type === "htmx:afterRequest" && event.detail.xhr.status !== 204) return;
  event.target.hidden = true;
  $("coming").querySelector(".failed").hidden = false;
}

// ---- the course under the finger --------------------------------------------------------------

async function begin() {
  asked?.abort();
  const mine = asked = new AbortController();
  data = null;
  if (!$("course").querySelector("figure")) { sliders.hidden = true; return; }
  let told = null;
  try {
    const answer = await fetch(`${sliders.dataset.from}?${query()}`, { signal: mine.signal });
    if (answer.status === 200) told = await answer.json();
  } catch {
    if (mine.signal.aborted) return;
  }
  if (mine.signal.aborted) return;
  const figure = $("course").querySelector("figure");
  if (!told || !figure) { sliders.hidden = true; return; }
  data = told;
  figure.querySelector(".pic-wide").innerHTML = data.wide;
  figure.querySelector(".pic-phone").innerHTML = data.phone;
  const aims = data.aims.map((step) => step.aim);
  setUp("aim", aims.length - 1, nearest(aims, data.aim));
  setUp("first", data.parts.length - 1, nearest(data.parts.map((part) => part.share), 1));
  draw(data.plan);
  say("aim");
  sliders.hidden = false;
}

/** The plan itself again, after another amount was tried. */
function snapBack() {
  if (!data) return;
  $("slide-first").value = String(nearest(data.parts.map((part) => part.share), 1));
  draw(data.plan);
  say("aim");
}

function setUp(name, most, at) {
  const slider = $(`slide-${name}`);
  slider.max = String(most);
  slider.value = String(at);
}

function nearest(values, wanted) {
  let best = 0;
  values.forEach((value, place) => {
    if (Math.abs(value - wanted) < Math.abs(values[best] - wanted)) best = place;
  });
  return best;
}

/** The bands for a share of the plan, between the two courses that were worked out beside it. */
function between(courses, share) {
  const shares = data.shares;
  const at = Math.min(Math.max(share, 0), shares[shares.length - 1]);
  const upper = Math.max(1, shares.findIndex((one) => one >= at));
  const weight = (at - shares[upper - 1]) / (shares[upper] - shares[upper - 1]);
  return courses[upper].map((band, row) =>
    band.map((high, week) => {
      const low = courses[upper - 1][row][week];
      return low + weight * (high - low);
    }));
}

function draw([q05, q25, q50, q75, q95]) {
  for (const svg of $("course").querySelectorAll("svg")) {
    const zero = Number(svg.dataset.zero), slope = Number(svg.dataset.slope) / 100;
    svg.xs ??= [...svg.querySelector(".mid").getAttribute("d").matchAll(/[ML]([\d.-]+) /g)].map((one) => one[1]);
    const there = (band) => band.map((ph, week) => `${svg.xs[week]} ${(zero + slope * ph).toFixed(1)}`);
    const area = (low, high) => `M${there(low).join("L")}L${there(high).reverse().join("L")}Z`;
    svg.querySelector(".b90").setAttribute("d", area(q05, q95));
    svg.querySelector(".b50").setAttribute("d", area(q25, q75));
    svg.querySelector(".mid").setAttribute("d", `M${there(q50).join("L")}`);
    label(svg, zero + slope * q50[q50.length - 1]);
  }
}

/** The label of the plan goes along with its line; the others make room. */
function label(svg, y) {
  svg.ends ??= [...svg.querySelectorAll(".ends text")].map((text) => {
    const own = text.closest("g").getAttribute("font-weight") === "bold";
    const tall = 15 * (1 + text.querySelectorAll("tspan").length);
    return { text, own, tall, home: Number(text.getAttribute("y")) };
  });
  svg.querySelector(".leaders")?.remove();
  const foot = svg.viewBox.baseVal.height - 46;
  const ends = svg.ends.map((end) => ({ ...end, at: end.own ? y + 4.2 : end.home }));
  ends.sort((one, other) => one.at - other.at);
  const mine = ends.findIndex((end) => end.own);
  if (mine >= 0) {
    for (let i = mine + 1; i < ends.length; i += 1) {
      ends[i].at = Math.max(ends[i].at, ends[i - 1].at + ends[i - 1].tall + SPACE);
    }
    for (let i = mine - 1; i >= 0; i -= 1) {
      ends[i].at = Math.min(ends[i].at, ends[i + 1].at - ends[i].tall - SPACE);
    }
    const over = ends[ends.length - 1].at + ends[ends.length - 1].tall - 15 - foot;
    if (over > 0) for (const end of ends) end.at -= over;
  }
  for (const end of ends) {
    end.text.setAttribute("y", end.at.toFixed(1));
  }
}

function say(moved) {
  const step = data.aims[Number($("slide-aim").value)];
  const part = data.parts[Number($("slide-first").value)];
  $("at-aim").textContent = step.aim.toFixed(1);
  $("at-first").textContent = part.said;
  const band = moved === "aim" ? between(data.whole, step.share) : between(data.first, part.share);
  const end = (band[2][band[2].length - 1] / 100).toFixed(1);
  const until = data.until.replace("{ph}", end);
  $("slid").textContent = moved === "aim" ? `${step.said} ${until}` : until;
  $("slide-aim").setAttribute("aria-valuetext", step.aim.toFixed(1));
  $("slide-first").setAttribute("aria-valuetext", part.said);
}

function follow(event) {
  if (!data || frame) return;
  frame = requestAnimationFrame(() => {
    frame = 0;
    if (!data) return;
    const started = event.timeStamp;
    const aim = $("slide-aim"), first = $("slide-first");
    if (event.target === aim) {
      first.value = String(nearest(data.parts.map((part) => part.share), 1));
      draw(between(data.whole, data.aims[Number(aim.value)].share));
      say("aim");
    } else {
      draw(between(data.first, data.parts[Number(first.value)].share));
      say("first");
    }
    performance.measure("follow", { start: started, end: performance.now() });
  });
}

function settle(event) {
  if (!data || event.target.id !== "slide-aim") return;
  const field = $("f-aim-target_ph");
  field.value = data.aims[Number(event.target.value)].aim.toFixed(1);
  field.dispatchEvent(new Event("change", { bubbles: true }));
}

document.addEventListener("focusin", suggest);
document.addEventListener("input", lookUp);
if (form && sliders) {
  window.htmx.config.historyCacheSize = 0;
  window.htmx.config.refreshOnHistoryMiss = true;
  sliders.addEventListener("input", follow);
  sliders.addEventListener("change", settle);
  for (const let_go of ["pointerup", "pointercancel", "blur"]) {
    $("slide-first").addEventListener(let_go, () => requestAnimationFrame(snapBack));
  }
  document.body.addEventListener("htmx:oobBeforeSwap", leaveAlone);
  document.body.addEventListener("htmx:afterSettle", (event) => {
    if (event.target.id !== "coming") return;
    document.title = `${$("title").textContent} · loamshift`;
    markFaults();
    arrived();
  });
  for (const fault of ["htmx:responseError", "htmx:sendError", "htmx:timeout", "htmx:afterRequest"]) {
    document.body.addEventListener(fault, failed);
  }
  form.addEventListener("click", choose);
  if (verdict && $("course").querySelector("figure")) begin();
}
