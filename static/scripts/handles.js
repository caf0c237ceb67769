// Makes the grips of a drawing movable by mouse, touch and keyboard, and keeps each in step with its input.
// Without this script the inputs do the same job.

const HANDLE = "[data-handle]";
const grips = [];

for (const handle of document.querySelectorAll(HANDLE)) {
  document.documentElement.dataset.scripts = "on";
  prepare(handle);
}

function prepare(handle) {
  const grip = {
    handle,
    id: handle.dataset.handle,
    svg: handle.closest("svg"),
    frame: handle.closest("[data-frame]"),
    knots: handle.dataset.knots.split(" ").map((pair) => pair.split(",").map(Number)),
    low: Number(handle.dataset.min),
    high: Number(handle.dataset.max),
    step: Number(handle.dataset.step),
    perSi: Number(handle.dataset.perSi),
    decimals: Number(handle.dataset.decimals),
    decimalSign: handle.dataset.decimalSign,
    unit: handle.dataset.unit,
    says: handle.dataset.says,
    stops: handle.dataset.stops ? JSON.parse(handle.dataset.stops) : null,
    told: document.querySelector(`[data-handle-says="${CSS.escape(handle.dataset.handle)}"]`),
    value: Number(handle.dataset.value),
    input: document.querySelector(`[data-handle-input="${CSS.escape(handle.dataset.handle)}"]`),
  };
  grip.start = place(grip, grip.value);
  grips.push(grip);
  handle.addEventListener("pointerdown", (event) => hold(event, nearest(event, grip)));
  handle.addEventListener("keydown", (event) => press(event, grip));
  if (grip.input) {
    grip.input.addEventListener("input", () => typed(grip));
    for (const button of document.querySelectorAll(`[data-handle-step="${CSS.escape(grip.id)}"]`)) {
      button.addEventListener("click", () => {
        step(grip, Number(button.dataset.steps));
        settle(grip);
      });
    }
    typed(grip);
  }
}

// value (SI) -> place along the line, straight between knots
function place(grip, value) {
  return between(grip.knots, value);
}

function valueAt(grip, at) {
  const turned = grip.knots.map(([value, where]) => [where, value]).sort((a, b) => a[0] - b[0]);
  return between(turned, at);
}

function between(pairs, x) {
  let i = pairs.findIndex((pair) => pair[0] > x);
  if (i < 0) i = pairs.length - 1;
  i = Math.max(i, 1);
  const [x0, y0] = pairs[i - 1];
  const [x1, y1] = pairs[i];
  return y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
}

// Each grip takes touches from farther round than its ring; where two reach, the one whose ring is nearer is meant.
function nearest(event, touched) {
  return grips.filter((each) => each.svg === touched.svg).reduce(
    (best, each) => (away(event, each) < away(event, best) ? each : best), touched,
  );
}

function away(event, grip) {
  const ring = grip.handle.querySelector(".d-handle").getBoundingClientRect();
  return Math.hypot(event.clientX - ring.x - ring.width / 2, event.clientY - ring.y - ring.height / 2);
}

function hold(event, grip) {
  event.preventDefault();
  const { handle } = grip;
  handle.focus();
  handle.setPointerCapture(event.pointerId);
  handle.dataset.held = "yes";
  const offset = along(event, grip) - place(grip, grip.value);
  let moved = false; // a touch alone places nothing
  const drag = (to) => {
    moved = true;
    snap(grip, valueAt(grip, along(to, grip) - offset));
  };
  const drop = () => {
    handle.removeEventListener("pointermove", drag);
    handle.removeEventListener("pointerup", drop);
    handle.removeEventListener("pointercancel", drop);
    delete handle.dataset.held;
    if (moved) settle(grip);
  };
  handle.addEventListener("pointermove", drag);
  handle.addEventListener("pointerup", drop);
  handle.addEventListener("pointercancel", drop);
}

function along(event, grip) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(grip.frame.getScreenCTM().inverse());
  return grip.handle.dataset.axis === "u" ? at.x : at.y;
}

function press(event, grip) {
  const steps = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10 }[event.key];
  if (steps !== undefined) step(grip, steps);
  else if (event.key === "Home") put(grip, grip.low);
  else if (event.key === "End") put(grip, grip.high);
  else return;
  event.preventDefault();
  settle(grip);
}

// so many steps on: to the next whole one where it stands between two, and to the end where no whole one is left
function step(grip, steps) {
  const at = grip.value / grip.step;
  const whole = steps > 0 ? Math.floor(at + 1e-6) : Math.ceil(at - 1e-6);
  put(grip, (whole + steps) * grip.step);
}

// to the whole step that lies nearest
function snap(grip, wanted) {
  put(grip, Math.round(wanted / grip.step) * grip.step);
}

function put(grip, wanted) {
  const value = Number(Math.min(Math.max(wanted, grip.low), grip.high).toFixed(6));
  grip.handle.dataset.placed = "yes";
  show(grip, value);
  if (grip.input) grip.input.value = words(grip).replace("\u00a0", " ");
}

// the input's own change event, so that whatever listens to the form hears of it
function settle(grip) {
  if (grip.input) grip.input.dispatchEvent(new Event("change", { bubbles: true }));
}

function typed(grip) {
  const [, figure, unit] = grip.input.value.trim().match(/^(-?[\d.,]+)\s*(\S*)$/) || [];
  const number = Number((figure || "").replace(",", "."));
  if (!figure || Number.isNaN(number) || unit !== grip.unit) return;
  const value = number / grip.perSi;
  if (value < grip.low - 1e-9 || value > grip.high + 1e-9) return;
  grip.handle.dataset.placed = "yes";
  show(grip, value);
}

function show(grip, value) {
  grip.value = value;
  const shift = place(grip, value) - grip.start;
  const inU = grip.handle.dataset.axis === "u";
  const name = CSS.escape(grip.id);
  for (const part of grip.svg.querySelectorAll(`[data-rides="${name}"]`)) {
    part.setAttribute("transform", inU ? `translate(${shift} 0)` : `translate(0 ${shift})`);
  }
  for (const hose of grip.svg.querySelectorAll(`[data-follows-${inU ? "u" : "v"}="${name}"]`)) {
    follow(hose, inU ? "x2" : "y2", shift);
  }
  for (const text of grip.svg.querySelectorAll(`[data-shows="${name}"] text`)) text.textContent = words(grip);
  grip.handle.setAttribute("aria-valuenow", String(Number((value * grip.perSi).toFixed(6))));
  grip.handle.setAttribute("aria-valuetext", said(grip));
  if (grip.told) grip.told.textContent = said(grip);
}

// what the drawing has ready to say of this place: the distance from the joint, or the height and the hour
function said(grip) {
  if (grip.says) return grip.says.replace("{distance}", words(grip));
  const stop = (grip.stops || []).find(([value]) => Math.abs(value - grip.value) < 1e-4);
  return stop ? stop[1] : words(grip);
}

function follow(hose, end, shift) {
  const key = end === "x2" ? "startX" : "startY";
  if (hose.dataset[key] === undefined) hose.dataset[key] = hose.getAttribute(end);
  hose.setAttribute(end, String(Number(hose.dataset[key]) + shift));
}

function words(grip) {
  const plain = String(Number((grip.value * grip.perSi).toFixed(grip.decimals)));
  const figure = plain.replace(".", grip.decimalSign);
  return grip.unit ? `${figure}\u00a0${grip.unit}` : figure;
}
