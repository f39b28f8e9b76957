/* Excerpts under what was found. The texts come with the page, so that this works from a folder. */
"use strict";
document.addEventListener("DOMContentLoaded", () => {
  const BEFORE = 80, LENGTH = 240;
  const asked = new URLSearchParams(location.search).get("q") || "";
  const words = asked.toLowerCase().split(/\s+/).filter((word) => word.length > 1);

  const excerpt = (text) => {
    const low = text.toLowerCase();
    const places = words.map((word) => low.indexOf(word)).filter((place) => place >= 0);
    if (!places.length) return null;
    let start = Math.max(0, Math.min(...places) - BEFORE);
    if (start > 0) start = text.indexOf(" ", start) + 1;
    const cut = text.slice(start, start + LENGTH);
    return `${start > 0 ? "… " : ""}${cut.slice(0, cut.lastIndexOf(" "))} …`;
  };

  const marked = (text) => {
    const line = document.createElement("p");
    line.className = "context";
    const shapes = words.map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
    text.split(new RegExp(`(${shapes.join("|")})`, "i")).forEach((piece, place) => {
      if (place % 2 === 0) return line.append(piece);
      const mark = document.createElement("mark");
      mark.textContent = piece;
      line.append(mark);
    });
    return line;
  };

  const shown = new Set();
  const addTo = (item) => {
    const link = item.querySelector("a");
    if (!link || item.dataset.read) return;
    item.dataset.read = "yes";
    const page = link.getAttribute("href").split(/[?#]/)[0].replace(/^\.\//, "").replace(/\.html$/, "");
    const found = PAGE_TEXTS[page] && excerpt(PAGE_TEXTS[page]);
    if (!found || shown.has(page)) return;
    shown.add(page);
    item.append(marked(found));
  };

  const results = document.getElementById("search-results");
  const all = () => results.querySelectorAll("ul.search > li").forEach(addTo);
  if (!results || !words.length || typeof PAGE_TEXTS === "undefined") return;
  new MutationObserver(all).observe(results, { childList: true, subtree: true });
  all();
});
