// The live floor: draws the moment, turns taps into events, keeps in step with the server.
import { drawNumerals } from "./numerals.js";
import {
  asksToStop,
  clockText,
  isStopped,
  momentOf,
  roundOf,
} from "./moment.js";
import { clockOf, formerPlace, inForce, nextPlace, placeAt } from "./record.js";
import { keepAwake, measureBy, useMeasuredSize } from "./screen.js";
import { allowSound, signal } from "./signals.js";
import { openStore, randomName } from "./store.js";
import { keepInStep } from "./sync.js";

const TILES = 6;
const BLOCKS = 12;
const DOUBLE_TAP_MS = 250;
const HOLD_MS = 1000;
const REGRET_MS = 10000;

const root = document.getElementById("floor");
const part = (name) => root.querySelector(`[data-part="${name}"]`);
let sheet = JSON.parse(document.getElementById("sheet").textContent);
const paths = root.dataset;
const stopAfter = Number(paths.stopAfter);
const people = () => new Map(sheet.people.map((person) => [person.id, person]));

useMeasuredSize();
const store = await openStore(sheet.session);
let page = 0;
let chosen = null;
let lastTap = 0;
let shown = { line: "", phase: "", soon: false };
let reach = { isReached: true, waiting: 0 };
let awake = null;

const step = keepInStep({
  path: paths.events,
  page: paths.page,
  token: document.querySelector("input[name=_token]").value,
  store,
  onNews: () => draw(),
  onState: (state) => {
    reach = state;
    if (state.revision && state.revision !== sheet.revision) takeNewSheet();
    draw();
  },
});

async function takeNewSheet() {
  const answer = await fetch(paths.sheet, { cache: "no-store" });
  if (answer.ok) sheet = await answer.json();
  draw();
}

async function note(kind, more = {}) {
  const number = store.nextNumber();
  const event = {
    id: `${store.device}-${randomName(8)}`,
    session: sheet.session,
    device: store.device,
    number,
    at: Date.now(),
    kind,
    author: localStorage.getItem("squadwright-author") || "",
    athlete: "",
    round: 0,
    exercise: "",
    value: null,
    words: "",
    takes_back: "",
    ...more,
  };
  await store.add(event);
  draw();
  step.now();
  return event;
}

// ---- drawing -----------------------------------------------------------------------------------

function draw() {
  const now = Date.now();
  const moment = momentOf(sheet, store.events, now);
  root.dataset.phase = moment.phase;
  root.dataset.kind = moment.main?.kind || "";
  tell(moment);
  drawClock(moment, now);
  drawPeople(moment);
  drawGroups(moment);
  part("next").textContent = nextWords(moment);
  part("rests").textContent = restWords(moment);
  part("line").textContent = reachWords();
  part("undo").disabled = !lastOwn();
  schedule(moment, now);
}

let timer = 0;
function schedule(moment, now) {
  clearTimeout(timer);
  if (moment.phase !== "on") return;
  // Wake exactly when the second on the screen or the part changes, whichever is first.
  const toSecond = (moment.left % 1 || 1) * 1000;
  timer = setTimeout(draw, Math.max(4, Math.min(toSecond, moment.left * 1000) + 1));
}

function tell(moment) {
  const line = moment.main ? `${moment.main.start_s} ${moment.main.title}` : "";
  if (moment.phase === "on" && shown.phase === "on" && line !== shown.line) {
    signal(!moment.main ? "stop" : moment.main.kind === "work" ? "go" : "change");
    flash();
    page = 0;
  }
  const soon = moment.phase === "on" && moment.left <= 3 && moment.left > 0;
  if (soon && !shown.soon && shown.line === line) signal("soon");
  shown = { line, phase: moment.phase, soon };
  if (moment.phase === "on" && !awake) awake = keepAwake();
  if (moment.phase === "ended" && awake) {
    awake();
    awake = null;
  }
}

function flash() {
  root.dataset.flash = root.dataset.flash === "a" ? "b" : "a";
}

function drawClock(moment) {
  const main = moment.main;
  part("title").textContent = titleOf(moment);
  part("round").textContent = roundWords(main);
  const wave = main?.wave ? sheet.waves[main.wave - 1] : null;
  part("wave").dataset.shape = wave ? wave[1] : "";
  part("wave-letter").textContent = wave ? wave[0] : "";
  const left = moment.phase === "before" ? 0 : moment.left;
  const text = left >= 6000 ? String(Math.floor(left / 60)) : clockText(left);
  drawNumerals(part("numerals"), text);
  part("time-words").textContent = `${text} left`;
  const share = main ? Math.ceil((left / moment.whole) * BLOCKS - 1e-6) : 0;
  [...part("blocks").children].forEach((block, at) => {
    block.classList.toggle("full", at < share);
  });
}

function titleOf(moment) {
  if (moment.phase === "before") return "Not started";
  if (moment.phase === "ended") return "Ended";
  if (moment.phase === "held") return "Held: bars down";
  if (moment.is_over) return "The sheet is done";
  const { main } = moment;
  if (!main) return "Pause";
  if (main.kind === "work") return "Work";
  if (main.kind === "change") return "Change";
  return main.title.charAt(0).toUpperCase() + main.title.slice(1);
}

function roundWords(main) {
  if (!main || !main.block) return sheet.name;
  const block = sheet.blocks.find((each) => each.name === main.block);
  const round = main.round && block?.rounds ? `, round ${main.round} of ${block.rounds}` : "";
  return main.kind === "block" ? sheet.name : `${main.block}${round}`;
}

function nextWords(moment) {
  if (moment.phase === "before") return "";
  const next = moment.next;
  if (!next) return moment.phase === "ended" ? "" : "Next: nothing more on the sheet";
  const wave = next.wave ? `wave ${sheet.waves[next.wave - 1][0]}` : "";
  const what = next.kind === "work" ? [wave, next.round ? `round ${next.round}` : ""] : [next.title];
  return `Next: ${what.filter(Boolean).join(", ")} in ${clockText(next.in_s)}.`;
}

function restWords(moment) {
  if (!moment.rests) return "";
  return moment.rests
    .map(({ wave, left }) => `${sheet.waves[wave - 1][0]} rests ${clockText(left)} more`)
    .join(". ");
}

function reachWords() {
  if (reach.refused) return `The server refused something: ${reach.refused}`;
  const waiting = store.unsent().length;
  if (!reach.isReached) {
    return waiting
      ? `No server: ${waiting} noted here, sent when it is back`
      : "No server: everything is kept here";
  }
  return waiting ? `Sending ${waiting}` : "Everything noted is stored";
}

function drawPeople(moment) {
  const known = people();
  const ids = moment.people;
  const pages = Math.max(1, Math.ceil(ids.length / TILES));
  page %= pages;
  const box = part("people");
  const wanted = ids.slice(page * TILES, page * TILES + TILES);
  box.replaceChildren(...wanted.map((id) => tile(known.get(id), moment)));
  const more = part("more-people");
  more.hidden = pages === 1;
  more.textContent = `More people (${page + 1} of ${pages})`;
}

function tile(person, moment) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "tile";
  button.dataset.athlete = person.id;
  const stopped = isStopped(store.events, person.id);
  if (stopped) button.classList.add("stopped");
  button.append(
    words("tile-name", person.short),
    words("tile-load", stopped ? "stopped" : [person.bar ? `bar ${person.bar}` : "", person.load]
      .filter(Boolean).join(", ")),
  );
  if (person.may_not.length) button.append(words("tile-mark", "\u2298"));
  button.addEventListener("click", () => guarded(() => open(person.id, moment)));
  return button;
}

function words(name, text) {
  const made = document.createElement("span");
  made.className = name;
  made.textContent = text;
  return made;
}

function drawGroups(moment) {
  const box = part("groups");
  const groups = moment.groups || [];
  box.hidden = !groups.length;
  const known = people();
  const names = (ids) => ids.map((id) => known.get(id)?.short || id).join(", ");
  box.replaceChildren(
    ...groups.map((group) => {
      const row = document.createElement("li");
      const doing = group.work
        ? `${group.work.exercise}: ${names(group.work.who)}, ${clockText(group.left)}`
        : group.next
          ? `next ${group.next.exercise} in ${clockText(group.next.in_s)}`
          : "done";
      row.append(words("group-now", `${group.name}, ${doing}`));
      const helping = group.helping
        .filter((line) => line.who.length)
        .map((line) => `${line.role || line.title}: ${names(line.who)}`)
        .join("; ");
      if (helping) row.append(words("group-help", helping));
      return row;
    }),
  );
}

// ---- taps --------------------------------------------------------------------------------------

function guarded(action) {
  const now = Date.now();
  if (now - lastTap < DOUBLE_TAP_MS) return;
  lastTap = now;
  allowSound();
  action();
}

function open(id, moment) {
  chosen = id;
  const person = people().get(id);
  const panel = part("panel");
  part("panel-name").textContent = `${person.name}, ${person.load || "no bar"}`;
  part("panel-may-not").textContent = person.may_not.length ? `Must not: ${person.may_not.join("; ")}` : "";
  const block = sheet.blocks.find((b) => b.name === moment.main?.block) || sheet.blocks[0];
  const faults = block ? block.faults : [];
  part("faults").replaceChildren(
    ...faults.map((fault) => choice(fault, () => tapFault(fault))),
  );
  part("losses").replaceChildren(
    ...[1, 2, 3].map((count) =>
      choice(`${count} rep${count > 1 ? "s" : ""} lost`, () =>
        forChosen("repetitions lost", { value: count }),
      ),
    ),
    choice(isStopped(store.events, id) ? "Goes on" : "Stops", () =>
      forChosen(isStopped(store.events, id) ? "athlete went on" : "athlete stopped"),
    ),
  );
  panel.hidden = false;
  panel.querySelector("button").focus();
}

function choice(text, action) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "choice";
  button.textContent = text;
  button.addEventListener("click", () => guarded(action));
  return button;
}

function place() {
  return placeAt(clockOf(store.events), Date.now());
}

async function forChosen(kind, more = {}) {
  const athlete = chosen;
  close();
  await note(kind, { athlete, round: roundOf(sheet, athlete, place()), ...more });
}

async function tapFault(words) {
  const athlete = chosen;
  close();
  const round = roundOf(sheet, athlete, place());
  await note("fault", { athlete, round, words });
  const again = asksToStop(store.events, athlete, round, stopAfter);
  if (again) ask(athlete, again);
}

function ask(athlete, fault) {
  const person = people().get(athlete);
  chosen = athlete;
  part("ask-words").textContent =
    `${person.short}: ${fault}, ${stopAfter} times this round. Stop him, or make it lighter?`;
  part("ask").hidden = false;
  part("ask").querySelector("button").focus();
}

function close() {
  part("panel").hidden = true;
  part("ask").hidden = true;
}

// Undo goes back step by step over what this device noted; the start of a session stays.
function lastOwn() {
  const own = inForce(store.events).filter(
    (event) => event.device === store.device && event.kind !== "started",
  );
  return own[own.length - 1] || null;
}

const ACTIONS = {
  "start-here": (button) => note("started", { value: Number(button.dataset.place) }),
  hold: () => {
    const clock = clockOf(store.events);
    note(clock.running ? "held" : "went on");
  },
  next: () => {
    const there = nextPlace(sheet.lines.filter(isMain), place());
    if (there !== null) note("moved on the sheet", { value: there });
  },
  back: () => note("moved on the sheet", { value: formerPlace(sheet.lines.filter(isMain), place()) }),
  undo: () => {
    const last = lastOwn();
    if (last) note("taken back", { takes_back: last.id });
  },
  "more-people": () => {
    page += 1;
    draw();
  },
  close,
  "ask-stop": () => forChosen("athlete stopped"),
  "ask-lighter": () => forChosen("remark", { words: "lighter from the next round" }),
  reopen: () => note("reopened"),
  theme: () => {
    const now = document.documentElement.dataset.theme;
    const other = now === "white-on-black" ? "black-on-white" : "white-on-black";
    document.documentElement.dataset.theme = other;
    localStorage.setItem("squadwright-floor-theme", other);
  },
  emergency: () => part("emergency").showModal(),
  "emergency-close": () => part("emergency").close(),
  setup: () => part("setup").showModal(),
  "setup-close": () => part("setup").close(),
};

// Lines of groups inside a block have their own rhythm: "next" goes by what everybody shares.
function isMain(line) {
  return line.wave > 0 || line.kind === "change" || (line.kind === "whole" && !line.block)
    || line.set === 1;
}

for (const button of root.querySelectorAll("[data-do]:not([data-do=end])")) {
  const action = ACTIONS[button.dataset.do];
  if (button.dataset.hold) holdFor(button, () => action(button));
  else button.addEventListener("click", () => guarded(() => action(button)));
}

// What cannot be wanted by accident is held for a second; by keyboard the key is held as well.
function holdFor(button, action) {
  let waiting = 0;
  const begin = (event) => {
    if (event.type === "keydown" && event.key !== "Enter" && event.key !== " ") return;
    if (event.type === "keydown") event.preventDefault();
    if (waiting) return;
    button.classList.add("holding");
    waiting = setTimeout(() => {
      end();
      allowSound();
      action();
    }, HOLD_MS);
  };
  const end = () => {
    clearTimeout(waiting);
    waiting = 0;
    button.classList.remove("holding");
  };
  for (const kind of ["pointerdown", "keydown"]) button.addEventListener(kind, begin);
  for (const kind of ["pointerup", "pointerleave", "pointercancel", "keyup", "blur"]) {
    button.addEventListener(kind, end);
  }
  button.addEventListener("contextmenu", (event) => event.preventDefault());
}

ACTIONS.end = async () => {
  const ended = await note("ended");
  const regret = part("regret");
  regret.hidden = false;
  regret.querySelector("button").onclick = () => {
    regret.hidden = true;
    note("taken back", { takes_back: ended.id });
  };
  setTimeout(() => {
    regret.hidden = true;
  }, REGRET_MS);
};
holdFor(root.querySelector("[data-do=end]"), ACTIONS.end);

// Keys, a foot switch and a presenter's clicker send keys: page down is next, page up is back.
document.addEventListener("keydown", (event) => {
  if (event.repeat || event.target.closest("dialog, input, textarea")) return;
  const action = { PageDown: "next", ArrowRight: "next", PageUp: "back", ArrowLeft: "back" }[event.key];
  if (action) {
    event.preventDefault();
    guarded(() => ACTIONS[action]());
  } else if (event.key === "h" || event.key === "p") guarded(ACTIONS.hold);
  else if (event.key === "Escape") close();
});

measureBy(part("card-slider"), part("card"));
const theme = localStorage.getItem("squadwright-floor-theme");
if (theme) document.documentElement.dataset.theme = theme;
document.addEventListener("visibilitychange", () => document.hidden || draw());
keepForFlightMode();
root.dataset.ready = "yes";
draw();

// The worker that opens this page without a server; the files loaded before it are told to it.
async function keepForFlightMode() {
  if (!("serviceWorker" in navigator)) {
    part("offline").textContent = "Without a secure address this page cannot be opened again without the server. Leave it open.";
    return;
  }
  await navigator.serviceWorker.register("/service-worker.js");
  const ready = await navigator.serviceWorker.ready;
  const files = performance
    .getEntriesByType("resource")
    .map((entry) => new URL(entry.name).pathname)
    .filter((path) => path.startsWith("/static/"));
  ready.active.postMessage({ keep: [location.pathname, ...new Set(files)] });
}
