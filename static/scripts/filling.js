// Shows the stills of the filling section one at a time under a slider; without it they stand in a row.

for (const film of document.querySelectorAll("[data-stills]")) {
  const stills = [...film.querySelectorAll("[data-still]")];
  const slider = film.querySelector("[data-stills-slider]");
  const output = film.querySelector("[data-stills-time]");
  if (!slider || !stills.length) continue;
  document.documentElement.dataset.scripts = "on";
  slider.min = "0";
  slider.max = String(stills.length - 1);
  slider.step = "1";
  const show = () => {
    stills.forEach((still, i) => { still.hidden = i !== Number(slider.value); });
    const time = stills[Number(slider.value)].dataset.still;
    if (output) output.textContent = time;
    slider.setAttribute("aria-valuetext", time);
  };
  slider.addEventListener("input", show);
  show();
}
