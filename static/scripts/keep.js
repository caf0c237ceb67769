// Keeps each response the moment it is made: one request an item, acknowledged beside it by the server's time.
// Without this script every item has a button that does the same.

const form = document.querySelector("form[data-keep]");
const RETRY_MS = [1000, 3000, 10000, 30000];
const TEXT_PAUSE_MS = 2000; // sentences are kept at every pause in typing, not only when the box is left

if (form) {
  document.documentElement.dataset.scripts = "on";
  // a step that cannot be taken back is sent by its own button, with the whole page, which comes back with what it led to
  for (const item of form.querySelectorAll("[data-keep-at]:not([data-by-button])")) watch(item);
  window.addEventListener("beforeunload", (event) => {
    if (form.querySelector("[data-unsaved]") && !form.dataset.leaving) event.preventDefault();
  });
  form.addEventListener("submit", () => { form.dataset.leaving = "yes"; });
}

for (const clock of document.querySelectorAll("[data-seconds-left]")) run(clock);

function watch(item) {
  const state = { running: false, again: false, failures: 0, timer: 0, pause: 0 };
  const button = item.querySelector("[data-keep-button]");
  if (button) button.hidden = true;
  item.addEventListener("change", () => { mark(item); clearTimeout(state.pause); keep(item, state); });
  item.addEventListener("input", (event) => {
    mark(item);
    if (event.target.tagName !== "TEXTAREA") return;
    clearTimeout(state.pause);
    state.pause = setTimeout(() => keep(item, state), TEXT_PAUSE_MS);
  });
  window.addEventListener("online", () => { if (item.dataset.unsaved) keep(item, state); });
}

function mark(item) {
  item.dataset.unsaved = "yes";
}

async function keep(item, state) {
  if (state.running) { state.again = true; return; }
  state.running = true;
  clearTimeout(state.timer);
  const sent = fieldsOf(item);
  try {
    const answer = await fetch(item.dataset.keepAt, {
      method: "POST", body: sent, headers: { Accept: "application/json" }, credentials: "same-origin",
    });
    const told = await answer.json().catch(() => ({}));
    show(item, answer, told);
    if (answer.ok && !state.again) delete item.dataset.unsaved;
    if (answer.status >= 500 || answer.status === 429) throw new Error(String(answer.status));
    state.failures = 0;
  } catch {
    tell(item, form.dataset.saysLost, true);
    const pause = RETRY_MS[Math.min(state.failures, RETRY_MS.length - 1)];
    state.failures += 1;
    state.timer = setTimeout(() => keep(item, state), pause);
  } finally {
    state.running = false;
  }
  if (state.again) { state.again = false; keep(item, state); }
}

function fieldsOf(item) {
  const sent = new FormData();
  sent.set("csrf_token", form.elements.namedItem("csrf_token").value);
  for (const control of item.querySelectorAll("input, select, textarea")) {
    if (!control.name || control.disabled) continue;
    if ((control.type === "checkbox" || control.type === "radio") && !control.checked) continue;
    sent.append(control.name, control.value);
  }
  return sent;
}

function show(item, answer, told) {
  if (answer.ok) {
    fault(item, "");
    tell(item, told.kept, false);
  } else if (answer.status < 500 && answer.status !== 429) {
    // refused for good: the same request again would be refused again
    fault(item, told.error || form.dataset.saysRefused);
    tell(item, form.dataset.saysRefused, true);
    if (answer.status === 409) item.querySelectorAll("input, select, textarea").forEach((each) => { each.disabled = true; });
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

function run(clock) {
  const end = performance.now() + Number(clock.dataset.secondsLeft) * 1000;
  const tick = () => {
    const left = Math.max(0, Math.round((end - performance.now()) / 1000));
    const text = `${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}`;
    clock.querySelector("[data-left]").textContent = text;
    clock.classList.toggle("clock-short", left < 120);
    if (left > 0) setTimeout(tick, 1000); else clock.querySelector("[data-over]").hidden = false;
  };
  tick();
}
