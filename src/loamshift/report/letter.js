(() => {
  "use strict";
  const held = document.getElementById("live-pictures");
  if (!held) return;
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const options = {
    mode: "vega-lite", renderer: "svg", ast: true, actions: false, defaultStyle: false,
    tooltip: { disableDefaultStyle: true },
  };
  const show = async ({ name, tones }) => {
    const figure = document.getElementById(name);
    const plan = tones[dark.matches ? "dark" : "light"];
    let place = figure.querySelector(".live");
    if (!place) {
      place = document.createElement("div");
      place.className = "live";
      figure.querySelector(".picture").append(place);
    }
    const { view } = await window.vegaEmbed(place, plan.spec, options);
    for (const [rows, values] of Object.entries(plan.data)) view.data(rows, values);
    await view.runAsync();
    figure.classList.add("is-live");
  };
  const all = () => {
    for (const plan of JSON.parse(held.textContent)) show(plan).catch(() => {});
  };
  dark.addEventListener("change", all);
  all();
})();
