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
  let changed = kept === first; // shown again with what was typed, after a fault
  let sending = false;
  const bar = document.getElementById("draft");
  if (kept && kept !== first && bar) {
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
