// Who is at work: a tile for each, six at a time, and a line for each group of a drill.
import { groupWords, helpWords } from "./groups.js";
import { label } from "./label.js";
import { isStopped, loadOf, loadWords } from "./moment.js";
import { guarded } from "./press.js";
import { swapWords } from "./swaps.js";

const TILES = 6;

export function offerPeople({ part, sheet, store, help, onTap }) {
  let page = 0;
  let shown = "";

  function draw(moment) {
    const known = new Map(sheet().people.map((person) => [person.id, person]));
    drawTiles(known, moment);
    drawGroups(known, moment.groups || []);
  }

  function drawTiles(known, moment) {
    const ids = moment.people;
    const pages = Math.max(1, Math.ceil(ids.length / TILES));
    page %= pages;
    const wanted = ids.slice(page * TILES, page * TILES + TILES);
    const tiles = wanted.map((id) => tile(known.get(id), moment));
    // A tile that stays the same stays in place: a touch may last longer than a second of the clock.
    const look = `${moment.main?.start_s} ${tiles.map((each) => each.outerHTML).join("")}`;
    if (look !== shown) part("people").replaceChildren(...tiles);
    shown = look;
    const more = part("more-people");
    more.hidden = pages === 1;
    more.textContent = `More people (${page + 1} of ${pages})`;
  }

  function tile(person, moment) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "tile";
    button.dataset.athlete = person.id;
    const out = help.outWords(person.id);
    const stopped = isStopped(store.events, person.id);
    if (out) button.classList.add("out");
    else if (stopped) button.classList.add("stopped");
    const block = moment.main?.block;
    const load = loadOf(person, block, moment.place, store.events);
    button.append(
      label("tile-name", person.short),
      label("tile-load", out || (stopped ? "stopped" : loadWords(load))),
    );
    const swap = swapWords(sheet(), store.events, person.id, block);
    if (swap) button.append(label("tile-swap", swap));
    if (person.may_not.length) button.append(label("tile-mark", "\u2298"));
    const tapped = out ? () => help.tellOut(person) : () => onTap(person.id, moment);
    button.addEventListener("click", () => guarded(tapped));
    return button;
  }

  function drawGroups(known, groups) {
    const names = (ids) => ids.map((id) => known.get(id)?.short || id).join(", ");
    part("groups").hidden = !groups.length;
    part("groups").replaceChildren(
      ...groups.map((group) => {
        const row = document.createElement("li");
        row.append(label("group-now", `${group.name}, ${groupWords(group, names)}`));
        const helping = helpWords(group, names);
        if (helping) row.append(label("group-help", helping));
        return row;
      }),
    );
  }

  return {
    draw,
    toFirst: () => {
      page = 0;
    },
    toNext: () => {
      page += 1;
    },
  };
}
