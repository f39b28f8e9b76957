// What every page does: a note while a PDF is set, and drafts of what is typed into forms.

// Setting a PDF takes a moment: a note says so from the press of the link until the file is there.
const note = document.getElementById("waiting");

function isPdf(link) {
  const url = new URL(link.href, location.href);
  return url.origin === location.origin && url.pathname.endsWith(".pdf");
}

/** The name the server gives the file; the one in any script before the one in plain letters. */
function nameIn(header) {
  const whole = /filename\*=UTF-8''([^;]+)/i.exec(header);
  return whole ? decodeURIComponent(whole[1]) : /filename="([^"]*)"/i.exec(header)?.[1] ?? "";
}

function hand(file, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function get(link) {
  link.setAttribute("aria-disabled", "true");
  note.textContent = note.dataset.said;
  try {
    const answer = await fetch(link.href, { redirect: "manual" });
    if (answer.headers.get("Content-Type") !== "application/pdf") throw new Error("no file");
    hand(await answer.blob(), nameIn(answer.headers.get("Content-Disposition") ?? ""));
  } catch {
    location.assign(link.href); // what went wrong is told by the page the link leads to
  } finally {
    note.textContent = "";
    link.removeAttribute("aria-disabled");
  }
}

if (note) {
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[href]");
    if (!link || event.defaultPrevented || event.button || !isPdf(link)) return;
    if (event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    if (!link.hasAttribute("aria-disabled")) get(link);
  });
}

// What is typed into a form stays in this browser until it is saved, and leaving asks first.
const BEFORE = "loamshift-draft ";
const SENT = "loamshift-sent";
const form = document.querySelector("form[data-draft]");
const key = form ? `${BEFORE}${form.dataset.draft}` : "";

/** The fields as they stand; neither the mark of the form nor files. */
function standing() {
  const pairs = [...new FormData(form)].filter(
    ([name, value]) => typeof value === "string" && !["csrfmiddlewaretoken", "version"].includes(name),
  );
  return JSON.stringify(pairs);
}

/** Whether two say the same: a page shown again after a fault has empty rows more than it had. */
function isSame(one, other) {
  const filled = (text) => JSON.stringify(JSON.parse(text).filter(([, value]) => value !== ""));
  return filled(one) === filled(other);
}

/** Storage may be shut off; typing then goes on without drafts. */
function tried(act) {
  try {
    return act();
  } catch {
    return null;
  }
}

/** A form that was sent and is no longer here was taken; its draft has done its work. */
function forgetWhatWasSent() {
  const sent = sessionStorage.getItem(SENT);
  sessionStorage.removeItem(SENT);
  if (sent && sent !== key) localStorage.removeItem(sent);
  const page = key.slice(0, key.lastIndexOf(" ") + 1); // the same page at another version
  for (const other of Object.keys(localStorage)) {
    if (page && other.startsWith(page) && other !== key) localStorage.removeItem(other);
  }
}

function restore(pairs) {
  const values = new Map();
  for (const [name, value] of pairs) values.set(name, [...(values.get(name) ?? []), value]);
  for (const [name, typed] of values) {
    const fields = [...form.elements].filter((field) => field.name === name);
    for (const [number, value] of typed.entries()) {
      const field = fields[number];
      if (!field) {
        const more = Object.assign(document.createElement("input"), { type: "hidden", name, value });
        form.append(more);
      } else if (field.type === "checkbox" || field.type === "radio") {
        for (const one of fields) one.checked = typed.includes(one.value);
      } else {
        field.value = value;
        field.closest("details")?.setAttribute("open", "");
      }
    }
  }
}

function watch() {
  const first = standing();
  const kept = tried(() => localStorage.getItem(key));
  let changed = Boolean(kept) && isSame(kept, first); // shown again with what was typed, after a fault
  let sending = false;
  const bar = document.getElementById("draft");
  if (kept && !changed && bar) {
    bar.hidden = false;
    bar.querySelector("[data-restore]").addEventListener("click", () => {
      restore(JSON.parse(kept));
      changed = true;
      bar.hidden = true;
      form.querySelector("input:not([type=hidden]), textarea, select")?.focus();
    });
    bar.querySelector("[data-drop]").addEventListener("click", () => {
      tried(() => localStorage.removeItem(key));
      bar.hidden = true;
    });
  }
  form.addEventListener("input", () => {
    const now = standing();
    changed = now !== first;
    tried(() => (changed ? localStorage.setItem(key, now) : localStorage.removeItem(key)));
  });
  form.addEventListener("submit", () => {
    sending = true;
    tried(() => {
      localStorage.setItem(key, standing());
      sessionStorage.setItem(SENT, key);
    });
  });
  addEventListener("beforeunload", (event) => {
    if (changed && !sending) event.preventDefault();
  });
  addEventListener("pageshow", () => (sending = false));
}

tried(forgetWhatWasSent);
if (form) watch();
