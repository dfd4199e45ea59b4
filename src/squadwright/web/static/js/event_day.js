// The day of a competition at the mats: what is tapped is kept on this device at once and sent when
// the site answers, the queue is worked out here, and all of it goes on without a server.
import { matRecord } from "./event_day_record.js";
import { clock, estimate, moveWords, onTheClock } from "./event_day_words.js";
import { keepForFlightMode } from "./live/offline.js";
import { guarded } from "./live/press.js";
import { inForce } from "./live/record.js";
import { saveRecord } from "./live/save_record.js";
import { keepAwake } from "./live/screen.js";
import { signal } from "./live/signals.js";
import { openStore } from "./live/store.js";
import { keepInStep, wordsOf } from "./live/sync.js";

const MINUTE_MS = 60_000;
const SETTINGS = { bouts_ahead: ["warms up from", 12], minutes: ["a bout takes", 60] };
const form = document.getElementById("event-day");
const lines = document.getElementById("queue");
const kept = document.getElementById("kept");
const weighIns = document.getElementById("weigh-ins");
const cards = [...form.querySelectorAll("[data-key]")];
const steps = [...document.querySelectorAll(".mat-routine [data-name]")];
const warming = new Set();
let store = null;
let step = null;
let record = matRecord([]);
let reach = null;
let open = null;
// A tap that comes before what is kept here has been read waits for it.
const opened = new Promise((resolve) => {
  open = resolve;
});

// ---- noting ------------------------------------------------------------------------------------

async function note(kind, more = {}) {
  await store.add(store.newEvent(kind, form.dataset.author, more));
  show();
  step.now();
}

function noteOf(card, kind, value = null) {
  return note(kind, { athlete: card.dataset.athlete, words: card.dataset.event, value });
}

async function takeBack(events) {
  for (const event of events) await note("taken back", { takes_back: event.id });
}

form.addEventListener("click", async ({ target }) => {
  const card = target.closest?.("[data-key]");
  if (!card) return;
  await opened;
  // The same number again is news as well: so many are ahead now, not when it was said first.
  if (target.type === "radio") noteOf(card, "bouts ahead", Number(target.value));
  const press = target.closest("[data-press]")?.dataset.press;
  if (press) guarded(() => pressed(press, card));
});

function pressed(press, card) {
  if (press === "bout-over") return noteOf(card, "bout over");
  return takeBack(record.of(card.dataset.key).bouts.at(-1)?.noted || []);
}

form.addEventListener("change", async ({ target }) => {
  if (target.type === "radio") return;
  await opened;
  if (target.name in SETTINGS) setTo(target);
  else changed(target, target.closest("[data-key]"));
});

function changed(field, card) {
  const known = record.of(card.dataset.key);
  if (field.type === "time") {
    const [hours, minutes] = field.value.split(":").map(Number);
    if (field.value) noteOf(card, "weighs in at", hours * 60 + minutes);
    else takeBack(known.weighs ? [known.weighs] : []);
  } else if (field.checked) noteOf(card, field.name.startsWith("over-") ? "finished for the day" : "has weighed in");
  else takeBack(field.name.startsWith("over-") ? known.over : known.weighed);
}

function setTo(field) {
  const [kind, most] = SETTINGS[field.name];
  const value = Number(field.value);
  const isGood = Number.isInteger(value) && value >= 1 && value <= most;
  field.setCustomValidity(isGood ? "" : `Write a whole number from 1 to ${most}`);
  if (isGood) note(kind, { value });
  else field.reportValidity();
}

// ---- what is known now -------------------------------------------------------------------------

// Fields as the record has them, whichever device it is from; one that is typed in is let be.
function fillIn() {
  const { settings } = record;
  put(form.elements.bouts_ahead, settings.from);
  put(form.elements.minutes, settings.minutes);
  for (const card of cards) {
    const { key } = card.dataset;
    const known = record.of(key);
    for (const radio of card.querySelectorAll("[type=radio]")) {
      radio.checked = known.ahead !== null && Number(radio.value) === known.ahead.value;
    }
    put(form.elements[`weigh-${key}`], known.weighs && onTheClock(known.weighs.value));
    form.elements[`weighed-${key}`].checked = known.weighed.length > 0;
    form.elements[`over-${key}`].checked = known.over.length > 0;
  }
}

function put(field, value) {
  if (field !== document.activeElement && field.validity.valid) field.value = value ?? field.defaultValue;
}

// One athlete at a moment: minutes since his last bout and to the next call, and what he does now.
function standing(card, now) {
  const { key, name } = card.dataset;
  const { bouts, ahead, over } = record.of(key);
  const each = record.settings.minutes ?? Number(form.elements.minutes.defaultValue);
  const from = record.settings.from ?? Number(form.elements.bouts_ahead.defaultValue);
  const sinceEnd = bouts.length ? (now - bouts.at(-1).endedAt) / MINUTE_MS : null;
  if (card.dataset.barred) return { card, name, sinceEnd: null, toCall: null, move: 4 };
  if (over.length) return { card, name, sinceEnd: null, toCall: null, move: 3 };
  if (!ahead) return { card, name, sinceEnd, toCall: null, move: 2 };
  const toCall = Math.max(0, ahead.value * each - (now - ahead.at) / MINUTE_MS);
  const toWarmUp = toCall - from * each;
  return { card, name, sinceEnd, toCall, toWarmUp, move: toWarmUp > 0 ? 1 : 0 };
}

function stepNow(found) {
  const before = steps
    .filter((step) => step.dataset.before)
    .sort((a, b) => a.dataset.before - b.dataset.before)
    .find((step) => found.toCall !== null && found.toCall <= Number(step.dataset.before));
  if (before) return before;
  const isJustOver = found.sinceEnd < Number(steps[0].dataset.after);
  return isJustOver ? steps[0] : steps[1];
}

function say(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

function showCard(found) {
  const part = (name) => found.card.querySelector(`[data-part=${name}]`);
  const { bouts } = record.of(found.card.dataset.key);
  say(part("ends"), bouts.length ? `Bouts over: ${bouts.length}.` : "");
  const isBetween = found.sinceEnd !== null;
  part("clock").hidden = part("step").hidden = !isBetween;
  if (!isBetween) return;
  const next = found.toCall === null ? "say how many bouts are ahead" : `next call in ${clock(found.toCall)}`;
  say(part("clock"), `${clock(found.sinceEnd)} since the bout, ${next}`);
  const step = stepNow(found);
  say(part("step"), step.textContent);
}

function showQueue(all) {
  const rows = all
    .map((found, place) => ({ found, place }))
    .sort((a, b) => a.found.move - b.found.move || (a.found.toCall || 0) - (b.found.toCall || 0) || a.place - b.place)
    .map(({ found }) => ({ found, words: [found.name, moveWords(found), estimate(found), found.card.dataset.where] }));
  const now = rows.map((row) => row.words.join("|")).join("\n");
  if (lines.dataset.shown === now) return;
  lines.dataset.shown = now;
  lines.replaceChildren(...rows.map(({ found, words }) => {
    const line = document.createElement("li");
    line.classList.toggle("mat-now", found.move === 0);
    const link = document.createElement("a");
    link.className = "row-link";
    link.href = `#${found.card.id}`;
    const [name, move, minutes, where] = ["a", "strong", "span", "span"].map((kind, index) => {
      const element = index ? document.createElement(kind) : link;
      element.textContent = words[index];
      return element;
    });
    where.className = "soft";
    line.append(name, " ", move, " ", minutes, " ", where);
    return line;
  }));
}

function showWeighIns() {
  const said = cards
    .map((card) => [form.elements[`weigh-${card.dataset.key}`].value, card.dataset])
    .filter(([at, { key }]) => at && !form.elements[`weighed-${key}`].checked)
    .map(([at, { name }]) => `${at} ${name}`)
    .sort();
  say(weighIns, said.length ? `${weighIns.dataset.words} ${said.join(", ")}` : "");
}

function show() {
  record = matRecord(store.events);
  fillIn();
  const all = cards.map((card) => standing(card, Date.now()));
  all.forEach(showCard);
  showQueue(all);
  showWeighIns();
  say(kept, reach ? `${wordsOf(reach, store.unsent().length)}.` : "Asking the site what others noted.");
  for (const found of all) {
    if (found.move !== 0) warming.delete(found.card);
    else if (!warming.has(found.card)) {
      warming.add(found.card);
      signal("soon");
    }
  }
}

function afreshKey(button) {
  button.hidden = false;
  button.addEventListener("click", () => {
    if (!button.dataset.asked) {
      button.dataset.asked = "yes";
      button.textContent = "Take back what was tapped today, on every device? Tap again";
      return;
    }
    delete button.dataset.asked;
    button.textContent = "Begin the day afresh";
    takeBack(inForce(store.events));
  });
}

async function begin() {
  store = await openStore(form.dataset.record);
  open();
  await null; // taps that waited are read before the fields are filled in
  step = keepInStep({
    path: form.dataset.events,
    page: location.pathname,
    token: document.querySelector("input[name=_token]").value,
    store,
    onNews: show,
    onState: (state) => {
      reach = state;
      show();
    },
  });
  document.getElementById("show-order").hidden = true;
  afreshKey(document.getElementById("afresh"));
  const save = document.getElementById("save-record");
  save.hidden = false;
  save.addEventListener("click", () => saveRecord(form.dataset.record, store));
  for (const keys of form.querySelectorAll("[data-part=keys]")) keys.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  show();
  setInterval(show, 1000);
  keepAwake();
  keepForFlightMode(document.getElementById("offline"));
  form.dataset.ready = "yes";
}

begin().catch(() => {
  store = null;
  kept.textContent = "This device keeps nothing: use the paper sheet, or the key that shows the order.";
});
