// A tap or a key on a sign of the drawing marks it, by way of the real checkbox in the list beside it.
// Without this script the checkboxes do the same job.

for (const sign of document.querySelectorAll("[data-hazard]")) {
  const box = document.querySelector(`[data-hazard-input="${CSS.escape(sign.dataset.hazard)}"]`);
  if (!box) continue;
  document.documentElement.dataset.scripts = "on";
  const show = () => sign.setAttribute("aria-checked", String(box.checked));
  const turn = () => {
    box.checked = !box.checked;
    box.dispatchEvent(new Event("change", { bubbles: true }));
  };
  sign.addEventListener("click", turn);
  sign.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    turn();
  });
  box.addEventListener("change", show);
  show();
}
