// Keeps each response the moment it is made: one request an item, acknowledged beside it by the server's time. What
// cannot be sent waits on this device. Without this script every item has a button that does the same.

import { leaveWithALine, onAnswer, pump } from "./line.js";
import { put, waitingFor } from "./waiting.js";

const form = document.querySelector("form[data-keep]");
const TEXT_PAUSE_MS = 2000; // sentences are sent at every pause in typing, not only when the box is left
const items = new Map();

if (form) {
  document.documentElement.dataset.scripts = "on";
  // a step that cannot be taken back is sent by its own button, with the whole page, which comes back with what it led to
  for (const item of form.querySelectorAll("[data-keep-at]:not([data-by-button])")) watch(item);
  onAnswer(answered);
  window.addEventListener("beforeunload", (event) => {
    if (form.querySelector("[data-unsaved]") && !form.dataset.leaving) event.preventDefault();
  });
}

for (const each of document.querySelectorAll("main form[method=post]")) leaveWithALine(each);

for (const clock of document.querySelectorAll("[data-seconds-left]")) run(clock);

function watch(item) {
  const address = item.dataset.keepAt;
  items.set(address, item);
  const button = item.querySelector("[data-keep-button]");
  if (button) button.hidden = true;
  const waits = waitingFor(address);
  if (waits) {
    restore(item, waits.fields);
    item.dataset.unsaved = "yes";
    tell(item, form.dataset.saysLost, true);
  }
  let pause = 0;
  const keep = () => { clearTimeout(pause); put(address, fieldsOf(item)); pump(); };
  item.addEventListener("change", () => { item.dataset.unsaved = "yes"; keep(); });
  item.addEventListener("input", (event) => {
    item.dataset.unsaved = "yes";
    if (event.target.tagName !== "TEXTAREA") return;
    put(address, fieldsOf(item));
    clearTimeout(pause);
    pause = setTimeout(keep, TEXT_PAUSE_MS);
  });
}

function fieldsOf(item) {
  const fields = [];
  for (const control of item.querySelectorAll("input, select, textarea")) {
    if (!control.name || control.disabled) continue;
    if ((control.type === "checkbox" || control.type === "radio") && !control.checked) continue;
    fields.push([control.name, control.value]);
  }
  return fields;
}

function restore(item, fields) {
  for (const control of item.querySelectorAll("input, select, textarea")) {
    const values = fields.filter(([name]) => name === control.name).map(([, value]) => value);
    if (control.type === "checkbox" || control.type === "radio") control.checked = values.includes(control.value);
    else if (values.length) [control.value] = values;
  }
}

function answered(address, { outcome, told, status }) {
  const item = items.get(address);
  if (!item) return;
  if (outcome === "kept") {
    fault(item, "");
    if (told.kept) tell(item, told.kept, false);
    if (!waitingFor(address)) delete item.dataset.unsaved;
  } else if (outcome === "lost" || outcome === "signed out") {
    tell(item, form.dataset.saysLost, true);
  } else {
    // refused for good: the same request again would be refused again
    fault(item, told.error || form.dataset.saysRefused);
    tell(item, form.dataset.saysRefused, true);
    if (status === 409) item.querySelectorAll("input, select, textarea").forEach((each) => { each.disabled = true; });
  }
}

function tell(item, text, failed) {
  const line = item.querySelector("[data-saved]");
  line.textContent = text;
  line.classList.toggle("saved-line-failed", failed);
}

function fault(item, text) {
  const line = item.querySelector("[data-fault]");
  line.textContent = text;
  line.hidden = !text;
  item.classList.toggle("field-invalid", Boolean(text));
  for (const control of item.querySelectorAll("input[type=text], textarea")) {
    if (text) control.setAttribute("aria-invalid", "true"); else control.removeAttribute("aria-invalid");
  }
}

// By the time of day: the browser's own count stands still on many devices while they sleep.
function run(clock) {
  const end = Date.now() + Number(clock.dataset.secondsLeft) * 1000;
  const tick = () => {
    const left = Math.max(0, Math.round((end - Date.now()) / 1000));
    const text = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
    clock.querySelector("[data-left]").textContent = text;
    clock.classList.toggle("clock-short", left < 120);
    if (left > 0) setTimeout(tick, 1000); else clock.querySelector("[data-over]").hidden = false;
  };
  tick();
}
