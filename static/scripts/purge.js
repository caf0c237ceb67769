// Shows the purge happening: moves through frames that the core made, and computes nothing of its own.
// Without this script, and where motion is not wanted, stills show the same.

const PAUSE_AT_END_MS = 400;

for (const sheet of document.querySelectorAll("[data-purge]")) {
  document.documentElement.dataset.scripts = "on";
  prepare(sheet);
}

// Also for a sheet that came later than the page.
export function prepare(sheet) {
  const part = (name) => sheet.querySelector(name);
  const player = {
    frames: JSON.parse(sheet.dataset.purge),
    classes: sheet.dataset.classes.split(" "),
    at: Number(sheet.dataset.opensWith),
    opensWith: Number(sheet.dataset.opensWith),
    timer: 0,
    bands: sheet.querySelectorAll("[data-part=gas] [data-band]"),
    line: part("[data-part=moment]"),
    struck: part("[data-root-at-strike]"),
    roots: sheet.querySelectorAll("[data-root]"),
    slider: part("[data-time]"),
    told: part("[data-told]"),
    play: part("[data-play]"),
    speed: part("[data-speed]"),
  };
  player.slider.addEventListener("input", () => { hold(player); show(player, Number(player.slider.value)); });
  player.play.addEventListener("click", () => (player.timer ? hold(player) : flow(player)));
  player.speed.addEventListener("change", () => { if (player.timer) { hold(player); flow(player); } });
  for (const button of sheet.querySelectorAll("[data-by]")) {
    button.addEventListener("click", () => { hold(player); show(player, player.at + Number(button.dataset.by)); });
  }
}

function flow(player) {
  if (player.at === player.frames.length - 1 || player.at === player.opensWith) show(player, 0);
  label(player, true);
  const next = () => {
    show(player, player.at + 1);
    wait();
  };
  const wait = () => {
    const isLast = player.at === player.frames.length - 1;
    player.timer = isLast ? setTimeout(() => hold(player), PAUSE_AT_END_MS) : setTimeout(next, pauseMs(player));
  };
  wait();
}

function pauseMs(player) {
  const { frames, at, speed } = player;
  return Math.max(((frames[at + 1].seconds - frames[at].seconds) * 1000) / Number(speed.value), 16);
}

function hold(player) {
  clearTimeout(player.timer);
  player.timer = 0;
  label(player, false);
  // spoken once it stands, not at every frame
  player.told.setAttribute("role", "status");
}

function label(player, isMoving) {
  player.play.setAttribute("aria-pressed", String(isMoving));
  player.play.querySelector("[data-when-still]").hidden = isMoving;
  player.play.querySelector("[data-when-moving]").hidden = !isMoving;
  if (isMoving) player.told.removeAttribute("role");
}

function show(player, wanted) {
  player.at = Math.min(Math.max(wanted, 0), player.frames.length - 1);
  const frame = player.frames[player.at];
  player.bands.forEach((band, i) => band.setAttribute("class", `d-film ${player.classes[Number(frame.bands[i])]}`));
  if (player.line) player.line.setAttribute("transform", `translate(${frame.x} 0)`);
  const isStrike = player.at === player.opensWith && player.struck;
  if (player.struck) player.struck.hidden = !isStrike;
  for (const root of player.roots) {
    root.hidden = Boolean(isStrike) || Number(root.dataset.root) !== frame.root;
    if (!root.hidden) root.querySelector("[data-part=oxygen] text").textContent = frame.oxygen;
  }
  player.slider.value = String(player.at);
  player.slider.setAttribute("aria-valuetext", frame.told);
  player.told.textContent = frame.told;
}
