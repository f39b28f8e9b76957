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
