// Answers that wait for the connection: kept on this device until the site has acknowledged each, so that a dead
// spot, a closed tab or an empty battery loses none. One waits for each item, the newest; the site takes the same
// answer twice as one, so that sending again after a lost acknowledgement doubles nothing.

const PREFIX = "waiting:";
const KEPT_DAYS = 14; // an attempt that nobody has opened for so long is over
const IN_TIME_MS = 20000;
const memory = new Map(); // where the browser keeps nothing for a site (private windows, full disk)

// Keeps the fields of one item until they are acknowledged at that address.
export function put(address, fields) {
  const entry = { fields, stamp: `${Date.now()}-${Math.random()}`, at: Date.now() };
  memory.set(address, entry);
  try {
    localStorage.setItem(PREFIX + address, JSON.stringify(entry));
  } catch { /* the page itself still holds it */ }
}

export function waitingFor(address) {
  try {
    const text = localStorage.getItem(PREFIX + address);
    if (text) return JSON.parse(text);
  } catch { /* what cannot be read was not written by us */ }
  return memory.get(address);
}

// The addresses whose answers wait, of one attempt or of all.
export function addresses(start = "/") {
  const found = new Set(memory.keys());
  try {
    for (let place = 0; place < localStorage.length; place += 1) {
      const key = localStorage.key(place);
      if (key.startsWith(PREFIX)) found.add(key.slice(PREFIX.length));
    }
  } catch { /* nothing is kept here */ }
  return [...found].filter((each) => each.startsWith(start) && fresh(each)).sort();
}

function fresh(address) {
  const entry = waitingFor(address);
  if (entry && Date.now() - entry.at < KEPT_DAYS * 86400e3) return true;
  drop(address);
  return false;
}

function drop(address, stamp) {
  if (stamp && waitingFor(address)?.stamp !== stamp) return; // answered anew in the meantime: that one still waits
  memory.delete(address);
  try {
    localStorage.removeItem(PREFIX + address);
  } catch { /* nothing is kept here */ }
}

// Sends what waits at an address. Answers { outcome, told, status }: "kept", "refused" (for good), "signed out"
// (kept here until the same person is back), "others" (not this person's: left alone), "lost" (to be sent again).
export async function send(address, token) {
  return oneAtATime(address, async () => {
    const entry = waitingFor(address);
    if (!entry) return { outcome: "kept", told: {}, status: 200 };
    const body = new FormData();
    body.set("csrf_token", token);
    for (const [name, value] of entry.fields) body.append(name, value);
    let answer;
    try {
      answer = await fetch(address, {
        method: "POST", body, headers: { Accept: "application/json" }, credentials: "same-origin",
        signal: AbortSignal.timeout(IN_TIME_MS),
      });
    } catch {
      return { outcome: "lost", told: {}, status: 0 };
    }
    const told = await answer.json().catch(() => ({}));
    const outcome = outcomeOf(answer);
    if (outcome === "kept" || outcome === "refused") drop(address, entry.stamp);
    return { outcome, told, status: answer.status };
  });
}

function outcomeOf(answer) {
  if (answer.redirected || answer.status === 401 || answer.status === 400) return "signed out";
  if (answer.ok) return "kept";
  if (answer.status === 403 || answer.status === 404) return "others";
  return answer.status >= 500 || answer.status === 429 ? "lost" : "refused";
}

// Two windows of one browser share what waits: only one sends, so that an older answer never overtakes a newer.
function oneAtATime(address, work) {
  return navigator.locks ? navigator.locks.request(PREFIX + address, work) : work();
}
