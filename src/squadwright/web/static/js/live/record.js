// The record on the device: the same rules as on the server, so that both show the same second.
// An event is {id, session, device, number, at, kind, athlete, round, exercise, value, words,
// takes_back}; `at` is an instant in milliseconds since 1970.

export const OUT = "out until cleared";
export const FOR_HEAT = "heat";
export const HEAT_KINDS = ["heat read", "stops for heat", "heat is over"];
const CLOCK_KINDS = new Set([
  "started",
  "moved on the sheet",
  "held",
  "went on",
  "ended",
  "reopened",
  "stops for heat",
  "heat is over",
]);

export function inOrder(events) {
  const each = new Map(events.map((event) => [event.id, event]));
  return [...each.values()].sort(
    (a, b) =>
      a.at - b.at || compare(a.device, b.device) || a.number - b.number || compare(a.id, b.id),
  );
}

function compare(a, b) {
  return a < b ? -1 : a > b ? 1 : 0;
}

// What is left when everything taken back is left out. Taking back the taking back brings the
// first event back; of events that take each other back in a ring none holds.
export function inForce(events) {
  const ordered = inOrder(events);
  const takers = new Map();
  for (const event of ordered) {
    if (!event.takes_back) continue;
    if (!takers.has(event.takes_back)) takers.set(event.takes_back, []);
    takers.get(event.takes_back).push(event.id);
  }
  const decided = new Map();
  for (const event of [...ordered].reverse()) decide(event.id, takers, decided);
  // Who is out until cleared stays out: only the register lets him back.
  return ordered.filter(
    (event) => event.kind === OUT || (decided.get(event.id) && !event.takes_back),
  );
}

function decide(id, takers, decided) {
  const waiting = [id];
  while (waiting.length) {
    const at = waiting[waiting.length - 1];
    if (decided.has(at)) {
      waiting.pop();
      continue;
    }
    const open = (takers.get(at) || []).filter((taker) => !decided.has(taker));
    if (open.some((taker) => waiting.includes(taker))) {
      decided.set(at, false);
      waiting.pop();
    } else if (open.length) {
      waiting.push(...open);
    } else {
      decided.set(at, !(takers.get(at) || []).some((taker) => decided.get(taker)));
      waiting.pop();
    }
  }
}

// What keeps somebody out: noted on any device, and not cleared in writing since.
export function outOf(events, athlete, cleared) {
  return events.filter(
    (event) => event.kind === OUT && event.athlete === athlete && !cleared.has(event.id),
  );
}

// The clock is a place on the run sheet [s]; it follows from the events and the time of day.
export function clockOf(events) {
  let clock = {
    place: 0, since: null, running: false, started: false, ended: false, stopsAt: null, stopFrom: 0,
  };
  for (const event of inForce(events)) {
    if (CLOCK_KINDS.has(event.kind)) clock = after(clock, event);
  }
  return clock;
}

export function placeAt(clock, now) {
  if (!clock.running) return clock.place;
  const place = clock.place + (now - clock.since) / 1000;
  return clock.stopsAt === null ? place : Math.min(place, clock.stopsAt);
}

function after(clock, event) {
  const place = placeAt(clock, event.at);
  const set = (changed) => ({ ...clock, place, since: event.at, ...changed });
  if (event.kind === "started") {
    if (clock.started && !clock.ended) return clock;
    const begun = set({ place: event.value || 0, running: true, started: true, ended: false });
    return clock.stopsAt === null ? begun : stopped(begun, begun.place);
  }
  if (event.kind === "stops for heat" && clock.stopsAt === null) {
    return stopped(clock.started ? set({}) : clock, event.value || 0);
  }
  if (event.kind === "heat is over" && clock.stopsAt !== null) {
    return set({ running: false, stopsAt: null });
  }
  if (!clock.started) return clock;
  switch (event.kind) {
    case "moved on the sheet":
      return set({ place: movedTo(clock, place, event.value || 0) });
    case "held":
      return set({ running: false });
    case "went on":
      return clock.ended ? clock : set({ running: true });
    case "ended":
      return set({ running: false, ended: true });
    case "reopened":
      return clock.ended ? set({ running: true, ended: false }) : clock;
    default:
      return clock;
  }
}

// Nobody is started after this, and the clock stands where the work under way ends.
function stopped(clock, at) {
  return { ...clock, stopsAt: Math.max(at, clock.place), stopFrom: clock.place };
}

// Where heat stops it, forward to the stop and never back.
function movedTo({ stopsAt }, place, to) {
  return stopsAt === null ? to : Math.min(Math.max(to, place), stopsAt);
}

export function boundaries(lines) {
  return [...new Set(lines.flatMap((line) => [line.start_s, line.end_s]))].sort((a, b) => a - b);
}

export function linesAt(lines, place) {
  return lines.filter((line) => line.start_s <= place && place < line.end_s);
}

export function nextPlace(lines, place) {
  return boundaries(lines).find((change) => change > place) ?? null;
}

export function formerPlace(lines, place, grace = 3) {
  const changes = boundaries(lines);
  if (!changes.length) return 0;
  const before = changes.filter((change) => change <= place - grace);
  return before.length ? before[before.length - 1] : changes[0];
}
