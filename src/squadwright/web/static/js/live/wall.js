// The wall screen: the same moment on a second display, to be read from the far end of the room.
import { drawNumerals } from "./numerals.js";
import { clockText, momentOf } from "./moment.js";
import { useMeasuredSize, keepAwake } from "./screen.js";
import { openStore } from "./store.js";
import { keepInStep } from "./sync.js";

const root = document.getElementById("wall");
const part = (name) => root.querySelector(`[data-part="${name}"]`);
let sheet = JSON.parse(document.getElementById("sheet").textContent);
useMeasuredSize();
keepAwake();
const store = await openStore(sheet.session);
keepInStep({
  path: root.dataset.events,
  page: root.dataset.page,
  token: document.querySelector("input[name=_token]").value,
  store,
  onNews: draw,
  onState: async ({ revision }) => {
    if (!revision || revision === sheet.revision) return;
    const answer = await fetch(root.dataset.sheet, { cache: "no-store" });
    if (answer.ok) sheet = await answer.json();
    draw();
  },
});

let timer = 0;
function draw() {
  const moment = momentOf(sheet, store.events, Date.now());
  const { main } = moment;
  root.dataset.phase = moment.phase;
  const wave = main?.wave ? sheet.waves[main.wave - 1] : null;
  part("wave").dataset.shape = wave ? wave[1] : "";
  part("wave-letter").textContent = wave ? wave[0] : "";
  const title = { before: "Not started", held: "Held: bars down", ended: "Ended" }[moment.phase];
  const block = sheet.blocks.find((each) => each.name === main?.block);
  part("title").textContent = title || (main ? (main.kind === "work" ? "Work" : raised(main.title)) : "");
  part("round").textContent = main?.round ? `Round ${main.round} of ${block?.rounds || ""}` : "";
  const text = clockText(moment.phase === "before" ? 0 : moment.left);
  drawNumerals(part("numerals"), text);
  part("time-words").textContent = `${text} left`;
  const known = new Map(sheet.people.map((p) => [p.id, p]));
  const rows = moment.groups?.length
    ? moment.groups.map((g) => [g.name, g.work ? names(known, g.work.who) : "next"])
    : (moment.people || []).slice(0, 8).map((id) => {
        const person = known.get(id);
        return [person.short, [person.bar ? `bar ${person.bar}` : "", person.load].filter(Boolean).join(", ")];
      });
  part("people").replaceChildren(
    ...rows.map(([who, what]) => {
      const row = document.createElement("li");
      for (const text of [who, what]) {
        const cell = document.createElement("span");
        cell.textContent = text;
        row.append(cell);
      }
      return row;
    }),
  );
  clearTimeout(timer);
  if (moment.phase === "on") {
    timer = setTimeout(draw, Math.max(4, Math.min((moment.left % 1 || 1) * 1000, moment.left * 1000) + 1));
  }
}

function raised(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function names(known, ids) {
  return ids.map((id) => known.get(id)?.short || id).join(", ");
}
root.dataset.ready = "yes";
draw();
