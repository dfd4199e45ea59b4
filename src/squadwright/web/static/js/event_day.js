// The day of a competition at the mats: what is tapped is kept on this device at once, the queue is
// worked out here, and all of it goes on without a server.
import { keepForFlightMode } from "./live/offline.js";
import { guarded } from "./live/press.js";
import { keepAwake } from "./live/screen.js";
import { signal } from "./live/signals.js";

const MINUTE_MS = 60_000;
const form = document.getElementById("event-day");
const lines = document.getElementById("queue");
const kept = document.getElementById("kept");
const weighIns = document.getElementById("weigh-ins");
const cards = [...form.querySelectorAll("[data-key]")];
const steps = [...document.querySelectorAll(".mat-routine [data-name]")];
const PLACE = `squadwright-event-day-${form.dataset.day}`;
const state = { typed: {}, saidAt: {}, ends: {}, ...read() };
const warming = new Set();

function read() {
  try {
    return JSON.parse(localStorage.getItem(PLACE)) || {};
  } catch {
    return {};
  }
}

function keep() {
  try {
    localStorage.setItem(PLACE, JSON.stringify(state));
    kept.textContent = "Kept on this device. It goes on without the server.";
  } catch {
    kept.textContent = "This device keeps nothing: leave the page open, or use the paper sheet.";
  }
}

// Fields as they were left; a field of the same name is a choice of several.
function fillIn() {
  for (const field of form.elements) {
    if (!field.name || !(field.name in state.typed)) continue;
    const value = state.typed[field.name];
    if (field.type === "radio" || field.type === "checkbox") field.checked = field.value === value;
    else field.value = value;
  }
}

function typed(field) {
  if (field.type === "checkbox") return field.checked ? field.value : "";
  return field.value;
}

function whole(name, most, usual) {
  const number = Number(form.elements[name].value);
  return Number.isInteger(number) && number >= 1 && number <= most ? number : usual;
}

// One athlete at a moment: minutes since his last bout and to the next call, and what he does now.
function standing(card, now) {
  const { key, name } = card.dataset;
  const ends = state.ends[key] || [];
  const chosen = form.querySelector(`[name="${CSS.escape(`ahead-${key}`)}"]:checked`);
  const isOver = form.elements[`over-${key}`].checked;
  const each = whole("minutes", 60, 8);
  const sinceEnd = ends.length ? (now - ends.at(-1)) / MINUTE_MS : null;
  if (isOver) return { card, name, sinceEnd: null, toCall: null, move: 3, isOver };
  if (!chosen) return { card, name, sinceEnd, toCall: null, move: 2 };
  const gone = (now - (state.saidAt[key] || now)) / MINUTE_MS;
  const toCall = Math.max(0, Number(chosen.value) * each - gone);
  const toWarmUp = toCall - whole("bouts_ahead", 12, 4) * each;
  return { card, name, sinceEnd, toCall, toWarmUp, move: toWarmUp > 0 ? 1 : 0 };
}

function moveWords(found) {
  if (found.move === 3) return "Finished for the day";
  if (found.move === 2) return "Bouts ahead not said";
  return found.move === 0 ? "Warm up now" : `Warm up in about ${Math.ceil(found.toWarmUp)} min`;
}

function estimate(found) {
  if (found.toCall === null) return "";
  return found.toCall < 1 ? "his bout is next" : `about ${Math.ceil(found.toCall)} min to the call`;
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

function clock(minutes) {
  const seconds = Math.max(0, Math.floor(minutes * 60));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

function say(element, words) {
  if (element.textContent !== words) element.textContent = words;
}

function showCard(found) {
  const part = (name) => found.card.querySelector(`[data-part=${name}]`);
  const ends = state.ends[found.card.dataset.key] || [];
  say(part("ends"), ends.length ? `Bouts over: ${ends.length}.` : "");
  const isBetween = found.sinceEnd !== null && !found.isOver;
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
    .map(({ found }) => ({ found, words: [found.name, moveWords(found), estimate(found)] }));
  const now = rows.map((row) => row.words.join("|")).join("\n");
  if (lines.dataset.shown === now) return;
  lines.dataset.shown = now;
  lines.replaceChildren(...rows.map(({ found, words }) => {
    const line = document.createElement("li");
    line.classList.toggle("mat-now", found.move === 0);
    const link = document.createElement("a");
    link.className = "row-link";
    link.href = `#${found.card.id}`;
    const [name, move, minutes] = ["a", "strong", "span"].map((kind, index) => {
      const element = index ? document.createElement(kind) : link;
      element.textContent = words[index];
      return element;
    });
    line.append(name, " ", move, " ", minutes);
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
  const all = cards.map((card) => standing(card, Date.now()));
  all.forEach(showCard);
  showQueue(all);
  showWeighIns();
  for (const found of all) {
    if (found.move !== 0) warming.delete(found.card);
    else if (!warming.has(found.card)) {
      warming.add(found.card);
      signal("soon");
    }
  }
}

form.addEventListener("change", ({ target }) => {
  state.typed[target.name] = typed(target);
  if (target.type === "radio") state.saidAt[target.name.slice("ahead-".length)] = Date.now();
  keep();
  show();
});

// The same number again is news as well: so many are ahead now, not when it was said first.
form.addEventListener("click", ({ target }) => {
  if (target.type === "radio") {
    state.saidAt[target.name.slice("ahead-".length)] = Date.now();
    keep();
    show();
  }
  const press = target.closest?.("[data-press]")?.dataset.press;
  if (press) guarded(() => pressed(press, target.closest("[data-key]").dataset.key));
});

function pressed(press, key) {
  const ends = state.ends[key] || [];
  state.ends[key] = press === "bout-over" ? [...ends, Date.now()] : ends.slice(0, -1);
  if (press === "bout-over") {
    const chosen = form.querySelector(`[name="${CSS.escape(`ahead-${key}`)}"]:checked`);
    if (chosen) chosen.checked = false;
    delete state.typed[`ahead-${key}`];
  }
  keep();
  show();
}

const afresh = document.getElementById("afresh");
afresh.addEventListener("click", () => {
  if (afresh.dataset.asked) {
    localStorage.removeItem(PLACE);
    location.assign(location.pathname);
    return;
  }
  afresh.dataset.asked = "yes";
  afresh.textContent = "Throw away what was tapped today? Tap again";
});

document.getElementById("show-order").hidden = true;
afresh.hidden = false;
for (const keys of form.querySelectorAll("[data-part=keys]")) keys.hidden = false;
form.addEventListener("submit", (event) => event.preventDefault());
fillIn();
show();
setInterval(show, 1000);
keepAwake();
keepForFlightMode(kept);
if (Object.keys(state.typed).length) keep();
