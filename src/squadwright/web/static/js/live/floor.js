// The live floor: draws the moment, turns taps into events, keeps in step with the server.
import { saveBattery } from "./battery.js";
import { offerChanges } from "./changes.js";
import { drawClock } from "./clock_face.js";
import { offerCues } from "./cues.js";
import { offerHeat } from "./heat.js";
import { offerHelp } from "./help.js";
import { momentOf, roundOf } from "./moment.js";
import { keepForFlightMode } from "./offline.js";
import { offerPanel } from "./panel.js";
import { offerPeople } from "./people.js";
import { choice, guarded, holdFor } from "./press.js";
import { clockOf, FOR_HEAT, formerPlace, HEAT_KINDS, inForce, nextPlace, OUT, placeAt } from "./record.js";
import { saveRecord } from "./save_record.js";
import { measureBy, useMeasuredSize } from "./screen.js";
import { keepSheet } from "./sheet.js";
import { openStore } from "./store.js";
import { keepInStep, wordsOf } from "./sync.js";
import { offerWaves } from "./waves.js";

const REGRET_MS = 10000;

const root = document.getElementById("floor");
const part = (name) => root.querySelector(`[data-part="${name}"]`);
const paths = root.dataset;
const sheets = keepSheet({
  element: document.getElementById("sheet"),
  path: paths.sheet,
  onNew: () => draw(),
});
const sheet = () => sheets.now;

useMeasuredSize();
const store = await openStore(sheets.now.session);
let reach = { isReached: true, waiting: 0 };

const step = keepInStep({
  path: paths.events,
  page: paths.page,
  token: document.querySelector("input[name=_token]").value,
  store,
  onNews: () => draw(),
  onState: (state) => {
    const was = reachWords();
    reach = state;
    sheets.follow(state.revision);
    if (!battery.isLow() || reachWords() !== was) draw();
  },
});

// ---- the parts of the page ---------------------------------------------------------------------

const changes = offerChanges({
  part,
  choice,
  note,
  sheet,
  events: () => inForce(store.events),
  last: () => lastOwn(),
  isReached: () => reach.isReached,
});
const waves = offerWaves({ part, choice, note, sheet, store });
const help = offerHelp({ root, part, choice, guarded, note, sheet, store, round: roundFor });
const isOut = (id) => Boolean(help.outWords(id));
const heat = offerHeat({ part, note, sheet, store, isOut, close });
const panel = offerPanel({ part, note, sheet, store, waves, roundFor, heat });
const people = offerPeople({ part, sheet, store, help, onTap: panel.open });
const cues = offerCues({ root, onNewPart: people.toFirst });
const battery = saveBattery({
  root,
  part,
  sheet,
  moment: () => momentOf(sheet(), store.events, Date.now()),
  events: () => store.events,
  onChange: () => draw(),
});

// ---- noting ------------------------------------------------------------------------------------

async function note(kind, more = {}) {
  const event = store.newEvent(kind, paths.author, more);
  await store.add(event);
  draw();
  step.now();
  return event;
}

function place() {
  return placeAt(clockOf(store.events), Date.now());
}

function roundFor(athlete) {
  return roundOf(sheet(), athlete, place());
}

// Undo goes back step by step over what this device noted; the start only if nothing followed it.
// Who is out and what the heat stopped stays: a clearance lifts the one, a lower reading the other.
function lastOwn() {
  const isFirst = store.events.length === 1;
  const own = inForce(store.events).filter(
    (event) =>
      event.device === store.device && event.kind !== OUT && (isFirst || event.kind !== "started")
      && !HEAT_KINDS.includes(event.kind) && event.words !== FOR_HEAT,
  );
  return own[own.length - 1] || null;
}

// ---- drawing -----------------------------------------------------------------------------------

function draw() {
  const now = Date.now();
  const moment = momentOf(sheet(), store.events, now);
  root.dataset.phase = moment.phase;
  root.dataset.kind = moment.main?.kind || "";
  cues.tell(moment);
  drawClock(part, sheet(), moment);
  people.draw(moment);
  part("line").textContent = reachWords();
  part("undo").disabled = !lastOwn();
  waves.draw();
  heat.draw(moment);
  changes.draw(now);
  battery.draw(moment);
  schedule(moment);
}

let timer = 0;
function schedule(moment) {
  clearTimeout(timer);
  if (moment.phase !== "on") return;
  // Wake exactly when the second on the screen or the part changes, whichever is first.
  timer = setTimeout(draw, Math.max(4, battery.untilDrawn(moment) + 1));
}

function reachWords() {
  return wordsOf(reach, store.unsent().length);
}

// ---- keys --------------------------------------------------------------------------------------

// Lines of groups inside a block have their own rhythm: "next" goes by what everybody shares.
function mainLines() {
  return sheet().lines.filter(
    (line) =>
      line.wave > 0 || line.kind === "change" || (line.kind === "whole" && !line.block)
      || line.set === 1,
  );
}

function close() {
  panel.close();
  changes.close();
}

async function end() {
  const ended = await note("ended");
  const regret = part("regret");
  regret.hidden = false;
  regret.querySelector("button").onclick = () => {
    regret.hidden = true;
    note("taken back", { takes_back: ended.id });
  };
  const until = Date.now() + REGRET_MS;
  const count = () => {
    const left = Math.ceil((until - Date.now()) / 1000);
    part("regret-left").textContent = `This stays for ${left} s; after that Open again brings it back.`;
    regret.hidden = regret.hidden || left <= 0;
    if (!regret.hidden) setTimeout(count, 250);
  };
  count();
}

const ACTIONS = {
  "start-here": (button) => note("started", { value: Number(button.dataset.place) }),
  hold: () => note(clockOf(store.events).running ? "held" : "went on"),
  next: () => {
    const there = nextPlace(mainLines(), place());
    if (there !== null) note("moved on the sheet", { value: there });
  },
  back: () => note("moved on the sheet", { value: formerPlace(mainLines(), place()) }),
  undo: () => {
    const last = lastOwn();
    if (last) note("taken back", { takes_back: last.id });
  },
  end,
  reopen: () => note("reopened"),
  "more-people": () => {
    people.toNext();
    draw();
  },
  close,
  change: () => changes.open(),
  "save-record": () => saveRecord(sheet().session, store),
  theme: () => {
    const now = document.documentElement.dataset.theme;
    const other = now === "white-on-black" ? "black-on-white" : "white-on-black";
    document.documentElement.dataset.theme = other;
    localStorage.setItem("squadwright-floor-theme", other);
  },
  hand: () => {
    root.dataset.hand = root.dataset.hand === "left" ? "right" : "left";
    localStorage.setItem("squadwright-floor-hand", root.dataset.hand);
  },
  setup: () => part("setup").showModal(),
  "setup-close": () => part("setup").close(),
  ...panel.actions,
  ...help.actions,
  ...heat.actions,
  ...battery.actions,
};

for (const button of root.querySelectorAll("[data-do]")) {
  const action = ACTIONS[button.dataset.do];
  if (button.dataset.hold) holdFor(button, () => action(button));
  else button.addEventListener("click", () => guarded(() => action(button)));
}

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
root.dataset.hand = localStorage.getItem("squadwright-floor-hand") || "right";
document.addEventListener("visibilitychange", () => document.hidden || draw());
keepForFlightMode(part("offline"));
root.dataset.ready = "yes";
draw();
