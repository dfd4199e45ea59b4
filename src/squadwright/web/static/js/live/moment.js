// What the floor shows at one moment, worked out from the sheet, the record and the time of day.
import { withMoved } from "./waves.js";
import { boundaries, clockOf, inForce, linesAt, placeAt } from "./record.js";

export function momentOf(whole, events, now) {
  const clock = clockOf(events);
  const place = clock.started ? placeAt(clock, now) : null;
  const { stopsAt } = clock;
  const phase = phaseOf(clock, place);
  if (place === null) {
    return { phase, place, stopsAt, lines: [], people: everyone(whole), next: null };
  }
  const sheet = stopsAt === null ? whole : withoutStarts(whole, clock.stopFrom);
  const lines = linesAt(sheet.lines, place);
  const main = mainLine(sheet, lines);
  return {
    phase,
    place,
    stopsAt,
    lines,
    main,
    left: main ? main.end_s - place : 0,
    whole: main ? main.end_s - main.start_s : 1,
    next: nextPart(sheet, place, main),
    rests: rests(sheet, place, main),
    groups: main && main.kind === "block" ? groupsAt(sheet, place, main.block) : [],
    is_over: place >= lastSecond(sheet),
    people: withMoved(events, main, peopleAt(sheet, place, main)),
  };
}

function phaseOf(clock, place) {
  if (clock.ended) return "ended";
  if (clock.stopsAt !== null && (place === null || place >= clock.stopsAt)) return "heat";
  if (!clock.started) return "before";
  return clock.running ? "on" : "held";
}

// Heat stops the session: what begins after that is not on the sheet any more.
function withoutStarts(sheet, from) {
  const lines = sheet.lines.filter((line) => line.kind !== "work" || line.start_s <= from);
  return { ...sheet, lines };
}

export function lastSecond(sheet) {
  return Math.max(0, ...sheet.lines.map((line) => line.end_s));
}

// One line stands for the floor: a wave at work, a change, everybody together; a block in which
// every group has its own rhythm is one long line.
export function mainLine(sheet, lines) {
  const wave = lines.find((line) => line.kind === "work" && line.wave);
  if (wave) return wave;
  const change = lines.find((line) => line.kind === "change");
  if (change) return change;
  const inBlock = lines.find((line) => line.block && !line.wave && line.kind === "work")
    || lines.find((line) => line.block);
  if (inBlock) return blockLine(sheet, inBlock.block);
  return lines.find((line) => line.kind === "whole") || null;
}

function blockLine(sheet, block) {
  const own = sheet.lines.filter((line) => line.block === block);
  return {
    kind: "block",
    block,
    // A bare letter would be read as a wave.
    title: `block ${block}`,
    start_s: Math.min(...own.map((line) => line.start_s)),
    end_s: Math.max(...own.map((line) => line.end_s)),
    wave: 0,
    round: 0,
    who: [],
    exercise: "",
  };
}

function nextPart(sheet, place, main) {
  const from = main ? main.end_s : place;
  const coming = boundaries(sheet.lines).filter((second) => second >= from && second > place);
  for (const second of coming) {
    const line = mainLine(sheet, linesAt(sheet.lines, second));
    if (line) return { ...line, in_s: second - place };
  }
  return null;
}

// How long each wave that is not at work still rests before its next round.
function rests(sheet, place, main) {
  if (!main || !main.block) return [];
  const found = [];
  const waves = [...new Set(sheet.lines.filter((l) => l.block === main.block).map((l) => l.wave))];
  for (const wave of waves.filter((each) => each && each !== main.wave)) {
    const next = sheet.lines.find(
      (l) => l.block === main.block && l.wave === wave && l.kind === "work" && l.start_s > place,
    );
    if (next) found.push({ wave, left: next.start_s - place });
  }
  return found;
}

function groupsAt(sheet, place, block) {
  const own = sheet.lines.filter((line) => line.block === block);
  const names = [...new Set(own.filter((l) => l.kind === "work").map((line) => line.group))];
  names.sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return names.map((name) => {
    const lines = own.filter((line) => line.group === name);
    const now = lines.filter((line) => line.start_s <= place && place < line.end_s);
    // In a lane several are on the way at once: who started last is the one to watch.
    const atWork = now
      .filter((line) => line.kind === "work")
      .sort((a, b) => b.start_s - a.start_s);
    const work = atWork[0];
    const next = lines
      .filter((line) => line.kind === "work" && line.start_s > place)
      .sort((a, b) => a.start_s - b.start_s)[0];
    return {
      name,
      lane: lines[0].lane,
      work,
      onTheWay: atWork.slice(1).flatMap((line) => line.who),
      helping: now.filter((line) => line.kind !== "work"),
      left: work ? work.end_s - place : 0,
      next: next
        ? { exercise: next.exercise, step: next.step, who: next.who, in_s: next.start_s - place }
        : null,
    };
  });
}

// The lanes in which somebody starts in this second: each start has its own cue.
export function startsNow(moment) {
  return (moment.groups || [])
    .filter((group) => group.lane && group.work && moment.place - group.work.start_s < 1)
    .map((group) => `${group.lane} ${group.work.start_s}`)
    .join(", ");
}

// Whom a tap can mean now: the wave at work, in a change the wave that has just worked.
function peopleAt(sheet, place, main) {
  if (!main) return everyone(sheet);
  if (main.kind === "work") return main.who;
  if (main.kind === "block") {
    const own = sheet.lines.filter((line) => line.block === main.block);
    return [...new Set(own.flatMap((line) => line.who))];
  }
  if (main.kind === "change") {
    const before = sheet.lines
      .filter((l) => l.block === main.block && l.kind === "work" && l.end_s <= place)
      .sort((a, b) => b.end_s - a.end_s)[0];
    if (before) return before.who;
  }
  return everyone(sheet);
}

function everyone(sheet) {
  return sheet.people.filter((p) => p.status === "present" || p.status === "late").map((p) => p.id);
}

// The round a tap belongs to: the one of his own line, or of the last one he worked.
export function roundOf(sheet, athlete, place) {
  const own = sheet.lines.filter(
    (line) => line.kind === "work" && line.who.includes(athlete) && line.start_s <= place,
  );
  const last = own.sort((a, b) => b.start_s - a.start_s)[0];
  return last ? last.round || last.set : 0;
}

export function taps(events, athlete) {
  return inForce(events).filter((event) => event.athlete === athlete);
}

// The fault that was tapped `limit` times for one athlete in one round; none asks nothing.
export function asksToStop(events, athlete, round, limit) {
  const seen = new Map();
  for (const event of taps(events, athlete)) {
    if (event.kind !== "fault" || event.round !== round) continue;
    seen.set(event.words, (seen.get(event.words) || 0) + 1);
  }
  for (const [words, count] of seen) if (count >= limit) return words;
  return "";
}

export function isStopped(events, athlete) {
  let stopped = false;
  for (const event of taps(events, athlete)) {
    if (event.kind === "athlete stopped") stopped = true;
    if (event.kind === "athlete went on") stopped = false;
  }
  return stopped;
}

// Bar and load of somebody in a block at a place: a change of bar waits for the round to end. A
// load that was changed by hand holds for as long as he stays on that bar.
export function loadOf(person, block, place, events) {
  const own = person.loads.filter(
    (load) => load.from_s <= Math.max(0, place ?? 0) && (!block || load.block === block),
  );
  const planned = own[own.length - 1] || person.loads[0] || { bar: 0, load: "", lighter_kg: null };
  const changed = taps(events, person.id)
    .filter((event) => event.kind === "load changed" && event.words === onBar(planned))
    .pop();
  if (!changed) return planned;
  return { ...planned, load: `${changed.value} kg`, lighter_kg: null };
}

export function onBar({ bar }) {
  return `on bar ${bar}`;
}

export function loadWords({ bar, load }) {
  return [bar ? `bar ${bar}` : "", load].filter(Boolean).join(", ");
}

export function clockText(seconds) {
  const whole = Math.max(0, Math.ceil(seconds - 1e-6));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
