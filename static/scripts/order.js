// Steps in order: a place that is taken changes hands, and the list stands in the order that is being given.
// Without this script each step has a list of places that does the same job.

for (const list of document.querySelectorAll("[data-order]")) {
  document.documentElement.dataset.scripts = "on";
  const rows = () => [...list.querySelectorAll("[data-order-step]")];
  const select = (row) => row.querySelector("select");
  let before = new Map(rows().map((row) => [row, select(row).value]));

  const arrange = () => {
    const placed = rows().filter((row) => select(row).value).sort((a, b) => select(a).value - select(b).value);
    const rest = rows().filter((row) => !select(row).value);
    const focused = document.activeElement;
    list.append(...placed, ...rest);
    if (focused && list.contains(focused)) focused.focus();
    before = new Map(rows().map((row) => [row, select(row).value]));
  };

  const give = (row, place) => {
    const other = rows().find((each) => each !== row && place && select(each).value === place);
    if (other) select(other).value = before.get(row);
    select(row).value = place;
    arrange();
  };

  list.addEventListener("change", (event) => {
    const row = event.target.closest("[data-order-step]");
    if (row) give(row, select(row).value);
  });

  list.addEventListener("click", (event) => {
    const button = event.target.closest("[data-order-move]");
    if (!button) return;
    const row = button.closest("[data-order-step]");
    const now = Number(select(row).value);
    const placed = rows().filter((each) => select(each).value).length;
    const wanted = now ? now + Number(button.dataset.orderMove) : placed + 1;
    if (wanted < 1 || wanted > rows().length) return;
    give(row, String(wanted));
    button.focus();
    select(row).dispatchEvent(new Event("change", { bubbles: true }));
  });

  arrange();
}
