// A tap or a key on a sign of the drawing marks it with its number, by way of the real checkbox in the list beside it;
// a line under the list keeps the numbers of all marks.
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

for (const line of document.querySelectorAll("[data-marked]")) {
  const boxes = [...line.parentElement.querySelectorAll("[data-hazard-input]")];
  const list = () => {
    const numbers = boxes.filter((box) => box.checked).map((box) => box.dataset.number);
    line.textContent = numbers.length ? line.dataset.marked.replace("{numbers}", numbers.join(", ")) : line.dataset.noneMarked;
  };
  for (const box of boxes) box.addEventListener("change", list);
  list();
}
