// The wall screen: the same moment on a second display, to be read from the far end of the room.
import { label } from "./label.js";
import { drawNumerals } from "./numerals.js";
import { clockText, isStopped, loadOf, loadWords, momentOf } from "./moment.js";
import { outOf } from "./record.js";
import { useMeasuredSize, keepAwake } from "./screen.js";
import { keepSheet } from "./sheet.js";
import { openStore } from "./store.js";
import { groupSwapWords, swapWords } from "./swaps.js";
import { keepInStep } from "./sync.js";

const MOST_NAMES = 8;

const root = document.getElementById("wall");
const part = (name) => root.querySelector(`[data-part="${name}"]`);
const cleared = new Set(root.dataset.cleared.split(" "));
const sheets = keepSheet({
  element: document.getElementById("sheet"),
  path: root.dataset.sheet,
  onNew: () => draw(),
});
useMeasuredSize();
keepAwake();
const store = await openStore(sheets.now.session);
keepInStep({
  path: root.dataset.events,
  page: root.dataset.page,
  token: document.querySelector("input[name=_token]").value,
  store,
  onNews: draw,
  onState: ({ revision }) => sheets.follow(revision),
});

// Who has stopped or is out is not called up.
function works(id) {
  return !isStopped(store.events, id) && !outOf(store.events, id, cleared).length;
}

let timer = 0;
function draw() {
  const sheet = sheets.now;
  const moment = momentOf(sheet, store.events, Date.now());
  const { main } = moment;
  root.dataset.phase = moment.phase;
  const wave = main?.wave ? sheet.waves[main.wave - 1] : null;
  part("wave").dataset.shape = wave ? wave[1] : "";
  part("wave-letter").textContent = wave ? wave[0] : "";
  const title = { before: "Not started", heat: "Stopped: heat", held: "Held: bars down", ended: "Ended" }[moment.phase];
  const block = sheet.blocks.find((each) => each.name === main?.block);
  part("title").textContent = title || (main ? (main.kind === "work" ? "Work" : raised(main.title)) : "");
  part("round").textContent = main?.round ? `Round ${main.round} of ${block?.rounds || ""}` : "";
  const text = clockText(["before", "heat"].includes(moment.phase) ? 0 : moment.left);
  drawNumerals(part("numerals"), text);
  part("time-words").textContent = `${text} left`;
  const known = new Map(sheet.people.map((p) => [p.id, p]));
  const rows = moment.groups?.length
    ? moment.groups.map((group) => {
        const people = (group.work?.who || []).filter(works);
        return [
          group.name,
          group.work ? names(known, people) : "next",
          groupSwapWords(sheet, store.events, known, { block: main.block, people }),
        ];
      })
    : fitting((moment.people || []).filter(works), (id) => {
        const person = known.get(id);
        return [
          person.short,
          loadWords(loadOf(person, main?.block, moment.place, store.events)),
          swapWords(sheet, store.events, id, main?.block),
        ];
      });
  part("people").replaceChildren(
    ...rows.map(([who, what, swap]) => {
      const row = document.createElement("li");
      row.append(label("wall-who", who), label("wall-load", what));
      if (swap) row.append(label("wall-swap", swap));
      return row;
    }),
  );
  clearTimeout(timer);
  if (moment.phase === "on") {
    timer = setTimeout(draw, Math.max(4, Math.min((moment.left % 1 || 1) * 1000, moment.left * 1000) + 1));
  }
}

// As many rows as the screen holds; the last one says how many more there are.
function fitting(ids, row) {
  if (ids.length <= MOST_NAMES) return ids.map(row);
  const shown = ids.slice(0, MOST_NAMES - 1).map(row);
  return [...shown, [`and ${ids.length - shown.length} more`, "on their cards", ""]];
}

function raised(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function names(known, ids) {
  return ids.map((id) => known.get(id)?.short || id).join(", ") || "nobody";
}
root.dataset.ready = "yes";
draw();
