// Sends whatever waits on this device as soon as there is a line, one after the other, and says on the page how
// things stand. Pages that answer items add `onAnswer`; the others only send what an earlier page could not.

import { addresses, send } from "./waiting.js";

const RETRY_MS = [1000, 3000, 10000, 30000];
const place = document.querySelector("[data-waiting]");
const heard = [];
const leftAlone = new Set(); // another person's, who used this device before
const run = { going: null, again: false, failures: 0, timer: 0, sent: 0 };

// The function is told the address and the outcome of everything that is sent.
export function onAnswer(listener) {
  heard.push(listener);
}

// Sends all that waits; ends when all was sent, or when the line was found to be gone.
export function pump() {
  if (run.going) run.again = true;
  else run.going = sendAll().finally(() => { run.going = null; });
  return run.going;
}

async function sendAll() {
  clearTimeout(run.timer);
  let left = 0;
  do {
    run.again = false;
    left = await sendOnce();
  } while (run.again && !left);
  if (left) run.timer = setTimeout(pump, RETRY_MS[Math.min(run.failures, RETRY_MS.length - 1)]);
  run.failures = left ? run.failures + 1 : 0;
  if (!left && run.sent && place?.dataset.then === "reload") location.reload(); // what it counts has changed
  else tell();
}

async function sendOnce() {
  const token = document.querySelector("input[name=csrf_token]")?.value ?? "";
  let left = 0;
  for (const address of toSend()) {
    const result = left ? { outcome: "lost", told: {}, status: 0 } : await send(address, token);
    if (result.outcome === "kept") run.sent += 1;
    if (result.outcome === "lost") left += 1;
    if (result.outcome === "others") leftAlone.add(address);
    if (result.outcome === "signed out") show("signedOut");
    heard.forEach((each) => each(address, result));
    if (result.outcome === "signed out") return 0; // nothing goes out before somebody signs in again
  }
  return left;
}

function toSend() {
  return addresses(place?.dataset.waiting || "/apprentice/attempts/").filter((each) => !leftAlone.has(each));
}

// A form that leaves the page only with a line: first what waits, then the form itself, so that nobody ends on the
// browser's own error page with a clock running.
export function leaveWithALine(form) {
  let asking = false;
  window.addEventListener("pageshow", () => { form.inert = false; delete form.dataset.leaving; }); // come back to
  form.addEventListener("submit", async (event) => {
    if (form.dataset.leaving || !place) return;
    event.preventDefault();
    if (asking) return;
    asking = true;
    form.inert = true; // what was pressed for goes out, not what is chosen while the line is asked
    await pump();
    const there = !toSend().length && (await reachable());
    asking = false;
    if (!there) {
      form.inert = false;
      event.submitter?.focus();
      show("held");
      return;
    }
    form.dataset.leaving = "yes";
    form.requestSubmit(event.submitter);
  });
}

async function reachable() {
  try {
    const asked = { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(8000) };
    return (await fetch(place.dataset.line, asked)).ok;
  } catch {
    return false;
  }
}

function tell() {
  const count = run.failures ? toSend().length : 0;
  if (count) show("waits", count);
  else if (["waits", "held"].includes(place?.dataset.shows)) show(run.sent ? "sent" : "");
}

// Shows one of the states that the page brings in words, or none.
function show(state, count = 0) {
  if (!place) return;
  place.dataset.shows = state;
  place.hidden = !state;
  for (const each of place.querySelectorAll("[data-state]")) {
    each.hidden = each.dataset.state !== state;
    const figure = each.querySelector("[data-count]");
    if (figure && count) figure.textContent = String(count);
  }
}

window.addEventListener("online", pump);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") pump(); });
pump();
