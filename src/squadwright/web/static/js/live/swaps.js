// What somebody does instead of an exercise: the keys that note it, and the words that show it.
import { inForce } from "./record.js";

const KIND = "exercise swapped";

// By exercise, what somebody does instead, the latest last; what he does as planned again is left out.
export function swapsOf(events, athlete) {
  const now = new Map();
  for (const { kind, athlete: who, exercise, words } of inForce(events)) {
    if (kind !== KIND || who !== athlete) continue;
    now.delete(exercise);
    if (words) now.set(exercise, words);
  }
  return now;
}

// "Row instead of Jerk", for each swap of a block.
function allWords(sheet, events, athlete, block) {
  return [...swapsOf(events, athlete)]
    .filter(([exercise]) => isOf(sheet, exercise, block))
    .map(([exercise, words]) => `${raised(words)} instead of ${nameOf(sheet, exercise)}`);
}

// The latest of the block that is on, and how many more.
export function swapWords(sheet, events, athlete, block) {
  const said = allWords(sheet, events, athlete, block);
  const more = said.length > 1 ? `; ${said.length - 1} more` : "";
  return said.length ? said[said.length - 1] + more : "";
}

// Of everybody in a group who does something else than the others.
export function groupSwapWords(sheet, events, known, { block, people }) {
  return people
    .map((id) => [known.get(id)?.short || id, swapWords(sheet, events, id, block)])
    .filter(([, words]) => words)
    .map(([name, words]) => `${name}: ${words}`)
    .join(". ");
}

function isOf(sheet, exercise, block) {
  const places = (sheet.swaps || []).filter((each) => each.exercise === exercise);
  return !block || !places.length || places.some((each) => each.block === block);
}

function nameOf(sheet, exercise) {
  const found = (sheet.swaps || []).find((each) => each.exercise === exercise);
  return found ? found.name : raised(exercise.replace(/[_-]/g, " "));
}

export function offerSwaps({ part, choice, forChosen, sheet, store }) {
  // A key for each exercise of his in a block.
  function draw(person, block) {
    const own = (person.swaps || [])
      .map((place) => sheet().swaps[place])
      .filter((each) => each.block === block);
    const now = swapsOf(store.events, person.id);
    part("swaps-part").hidden = !own.length;
    const said = allWords(sheet(), store.events, person.id, block);
    part("swaps-line").textContent = said.join(". ") || "Something else instead";
    part("swaps").replaceChildren(
      ...own.map((each) =>
        choice(`Swap ${each.name}${now.has(each.exercise) ? " (swapped)" : ""}`, () =>
          ask(each, now.get(each.exercise) || ""),
        ),
      ),
    );
  }

  // His best swaps in place of all other keys; the exercise itself again where it is swapped.
  function ask({ exercise, name, swaps }, now) {
    const tell = (words) => forChosen(KIND, { exercise, words });
    part("panel-may-not").textContent = `Instead of ${name}:`;
    part("faults").replaceChildren(
      ...swaps
        .filter((words) => words !== now)
        .map((words) => choice(raised(words), () => tell(words))),
      ...(now ? [choice(`${name} again`, () => tell(""))] : []),
    );
    part("losses").replaceChildren();
    part("swaps-part").hidden = true;
    part("panel").scrollTop = 0;
    part("faults").querySelector("button").focus();
  }

  return { draw };
}

function raised(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
