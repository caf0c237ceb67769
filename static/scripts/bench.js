// The bench, live: sends the form as it is changed and swaps in the parts of the page that the server answers.
// Nothing is computed here. Without this script the form works by its button.

import { prepare } from "./purge.js";

const PAUSE_TYPING_MS = 160;
const PAUSE_HELP_MS = 700;
const RETRY_MS = 1500;

const bench = document.querySelector("[data-bench]");
if (bench) start();

function start() {
  document.documentElement.dataset.scripts = "on";
  const part = (name) => document.querySelector(name);
  const state = {
    form: part("[data-form]"),
    timer: 0,
    helpTimer: 0,
    asking: null,
    askingHelp: null,
    lastSent: "",
    part,
  };
  state.lastSent = sent(state);
  state.form.addEventListener("input", (event) => soon(state, event.target.matches("input") ? PAUSE_TYPING_MS : 0));
  state.form.addEventListener("change", (event) => (needsNewFields(event.target) ? state.form.requestSubmit() : soon(state, 0)));
  listenForHelp(state);
  listenForFilling(state);
  listenForCopy(state);
}

// A part of another kind takes other fields, which only the server knows.
function needsNewFields(control) {
  return /^section\.path\.\d+\.(?:branch\.\d+\.)?part$/.test(control.name);
}

function sent(state) {
  return new URLSearchParams(new FormData(state.form)).toString();
}

function soon(state, pauseMs) {
  clearTimeout(state.timer);
  state.timer = setTimeout(() => ask(state), pauseMs);
}

async function ask(state) {
  const query = sent(state);
  if (query === state.lastSent) return;
  state.asking?.abort();
  state.asking = new AbortController();
  state.lastSent = query;
  const startedAt = performance.now();
  try {
    const answer = await fetch(`${bench.dataset.results}?${query}`, { signal: state.asking.signal });
    if (answer.status === 429) return again(state);
    if (!answer.ok) throw new Error(String(answer.status));
    show(state, await answer.json());
    performance.measure("bench change", { start: startedAt });
  } catch (fault) {
    if (fault.name !== "AbortError") lost(state);
  }
}

// Too many at once from one address: it goes on by itself.
function again(state) {
  state.lastSent = "";
  soon(state, RETRY_MS);
}

function lost(state) {
  state.lastSent = "";
  bench.dataset.stale = "lost";
  state.part("[data-lost-words]").hidden = false;
}

function show(state, said) {
  const isWorked = said.live !== null;
  state.part("[data-lost-words]").hidden = true;
  tellFaults(state, said.faults);
  state.part("[data-stale-words]").hidden = isWorked || "unworked" in bench.dataset;
  if (!isWorked) {
    bench.dataset.stale = "faults";
    return;
  }
  delete bench.dataset.stale;
  delete bench.dataset.unworked;
  swap(state.part("[data-live]"), said.live);
  swap(state.part("[data-said]"), said.results);
  history.replaceState(null, "", said.address);
  state.part("[data-keep-as-a]").href = said.keep;
  state.part("[data-card]").href = said.card;
  state.part("[data-copied]").hidden = true;
  emptyFilling(state);
  helpAgain(state);
}

// Folds that were open stay open.
function swap(place, html) {
  const open = new Set([...place.querySelectorAll("details[open][data-keep]")].map((each) => each.dataset.keep));
  place.replaceChildren(...parsed(html));
  for (const each of place.querySelectorAll("details[data-keep]")) each.open = open.has(each.dataset.keep);
}

function parsed(html) {
  return [...new DOMParser().parseFromString(html, "text/html").body.childNodes];
}

function tellFaults(state, faults) {
  for (const old of state.form.querySelectorAll("[data-live-fault], .field-error")) old.remove();
  for (const old of state.form.querySelectorAll(".field-invalid")) old.classList.remove("field-invalid");
  for (const old of state.form.querySelectorAll("[aria-invalid]")) {
    old.removeAttribute("aria-invalid");
    old.removeAttribute("aria-describedby");
  }
  const general = [];
  for (const [id, words] of faults) {
    const control = id && document.getElementById(id);
    if (control) markFault(control, words);
    else general.push(words);
  }
  const place = state.part("[data-fault-summary]");
  place.replaceChildren(...general.map((words) => paragraph("field-error", words)));
}

function markFault(control, words) {
  const told = paragraph("field-error", words);
  told.id = `${control.id}-fault`;
  told.dataset.liveFault = "";
  control.setAttribute("aria-invalid", "true");
  control.setAttribute("aria-describedby", told.id);
  const field = control.closest(".field");
  field.classList.add("field-invalid");
  field.append(told);
  control.closest("details").open = true;
}

function paragraph(look, words) {
  const made = document.createElement("p");
  made.className = look;
  made.textContent = words;
  return made;
}

function listenForHelp(state) {
  state.part("[data-ask-help]")?.addEventListener("click", (event) => {
    event.preventDefault();
    event.target.closest("p").hidden = true;
    state.part("[data-helped]").dataset.shown = "";
    askHelp(state);
  });
}

function helpAgain(state) {
  clearTimeout(state.helpTimer);
  state.askingHelp?.abort();
  const place = state.part("[data-helped]");
  if (!("shown" in place.dataset)) return;
  place.dataset.stale = "";
  state.helpTimer = setTimeout(() => askHelp(state), PAUSE_HELP_MS);
}

async function askHelp(state) {
  const place = state.part("[data-helped]");
  state.askingHelp?.abort();
  const mine = new AbortController();
  state.askingHelp = mine;
  state.part("[data-trying]").hidden = false;
  try {
    const answer = await fetch(`${bench.dataset.help}?${sent(state)}`, { signal: mine.signal });
    if (answer.status === 429) {
      state.helpTimer = setTimeout(() => askHelp(state), RETRY_MS);
      return;
    }
    if (!answer.ok) throw new Error(String(answer.status));
    place.replaceChildren(...parsed((await answer.json()).html));
    delete place.dataset.stale;
  } catch (fault) {
    if (fault.name !== "AbortError") lost(state);
  }
  if (state.askingHelp === mine) state.part("[data-trying]").hidden = true;
}

function listenForFilling(state) {
  state.part("[data-ask-filling]")?.addEventListener("click", async (event) => {
    event.preventDefault();
    const answer = await fetch(`${bench.dataset.filling}?${sent(state)}`).catch(() => null);
    if (!answer?.ok) return lost(state);
    const place = state.part("[data-filled]");
    place.replaceChildren(...parsed((await answer.json()).html));
    for (const sheet of place.querySelectorAll("[data-purge]")) prepare(sheet);
    event.target.closest("p").hidden = true;
  });
}

// What was shown is of the set-up before; it is asked for anew.
function emptyFilling(state) {
  const button = state.part("[data-ask-filling]");
  if (!button) return;
  state.part("[data-filled]").replaceChildren();
  button.closest("p").hidden = false;
}

// Where the page came without encryption, browsers let no script copy; the address bar still does.
function listenForCopy(state) {
  const button = state.part("[data-copy]");
  if (!navigator.clipboard) {
    button.closest("li").hidden = true;
    return;
  }
  button.addEventListener("click", async () => {
    await navigator.clipboard.writeText(location.href);
    state.part("[data-copied]").hidden = false;
  });
}
