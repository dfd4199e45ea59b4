// What was noted at the mats, put together; planning/mat_record.py does the same on the server.
import { inForce } from "./live/record.js";

// Two devices that see a bout end within this time saw the same one.
const SAME_BOUT_MS = 180_000;
const NOTHING = { bouts: [], ahead: null, weighs: null, weighed: [], over: [] };

export const keyOf = (event) => `${event.athlete}.${event.words}`;

// {settings: {from, minutes}, of(key)}: an athlete's bouts with the events that ended them, and
// the events that hold of what was said last.
export function matRecord(events) {
  const settings = { from: null, minutes: null };
  const athletes = new Map();
  for (const event of inForce(events)) {
    if (event.kind === "warms up from") settings.from = event.value;
    else if (event.kind === "a bout takes") settings.minutes = event.value;
    else if (event.athlete) {
      const key = keyOf(event);
      athletes.set(key, after(athletes.get(key) || NOTHING, event));
    }
  }
  return { settings, of: (key) => athletes.get(key) || NOTHING };
}

function after(known, event) {
  switch (event.kind) {
    case "bouts ahead":
      return { ...known, ahead: event };
    case "bout over":
      return withBout(known, event);
    case "weighs in at":
      return { ...known, weighs: event };
    case "has weighed in":
      return { ...known, weighed: [...known.weighed, event] };
    case "finished for the day":
      return { ...known, over: [...known.over, event] };
    default:
      return known;
  }
}

function withBout(known, event) {
  const last = known.bouts.at(-1);
  const isSame =
    last &&
    event.at - last.endedAt <= SAME_BOUT_MS &&
    !last.noted.some((noted) => noted.device === event.device);
  if (!isSame) {
    return { ...known, ahead: null, bouts: [...known.bouts, { endedAt: event.at, noted: [event] }] };
  }
  const joined = { ...last, noted: [...last.noted, event] };
  return { ...known, bouts: [...known.bouts.slice(0, -1), joined] };
}
