// The panel of one athlete: what is noted about him, and the question of the stop rule.
import { asksToStop, isStopped, loadOf, momentOf, onBar } from "./moment.js";
import { choice, guarded } from "./press.js";
import { offerSwaps } from "./swaps.js";

export function offerPanel({ part, note, sheet, store, waves, roundFor, heat }) {
  const swaps = offerSwaps({ part, choice, forChosen, sheet, store });
  const personOf = (id) => sheet().people.find((person) => person.id === id);
  let chosen = null;

  function open(id, moment) {
    chosen = id;
    const person = personOf(id);
    const panel = part("panel");
    const load = loadAt(person, moment);
    part("panel-name").textContent = `${person.name}, ${load.load || "no bar"}`;
    part("panel-may-not").textContent = person.may_not.length
      ? `Must not: ${person.may_not.join("; ")}`
      : "";
    const { blocks } = sheet();
    const block = blocks.find((each) => each.name === moment.main?.block) || blocks[0];
    part("faults").replaceChildren(
      ...(block ? block.faults : []).map((fault) => choice(fault, () => tapFault(fault))),
    );
    part("losses").replaceChildren(
      ...[1, 2, 3].map((count) =>
        choice(`${count} rep${count > 1 ? "s" : ""} lost`, () =>
          forChosen("repetitions lost", { value: count }),
        ),
      ),
      ...waves.keys(forChosen),
      ...lighter(load).map((kg) => choice(lighterWords(load), () => setLoad(load, kg))),
      // Whom the heat stopped goes on with a lower reading only.
      ...(heat.isStoppedForHeat(id) ? [] : [stopKey(isStopped(store.events, id))]),
    );
    swaps.draw(person, block?.name);
    panel.hidden = false;
    panel.scrollTop = 0;
    panel.querySelector("button").focus();
  }

  function stopKey(isOff) {
    return choice(isOff ? "Goes on" : "Stops", () =>
      forChosen(isOff ? "athlete went on" : "athlete stopped"),
    );
  }

  function loadAt(person, moment) {
    return loadOf(person, moment.main?.block, moment.place, store.events);
  }

  function lighter(load) {
    return load.lighter_kg === null ? [] : [load.lighter_kg];
  }

  function setLoad(load, kg) {
    forChosen("load changed", { value: kg, words: onBar(load) });
  }

  async function forChosen(kind, more = {}) {
    const athlete = chosen;
    close();
    await note(kind, { athlete, round: roundFor(athlete), ...more });
  }

  async function tapFault(words) {
    const athlete = chosen;
    close();
    const round = roundFor(athlete);
    await note("fault", { athlete, round, words });
    const again = asksToStop(store.events, athlete, round, sheet().stop_after);
    if (again) ask(athlete, again);
  }

  // So many of one fault in a round as the coach has set: he stops, or it gets lighter.
  function ask(athlete, fault) {
    chosen = athlete;
    const person = personOf(athlete);
    const load = loadAt(person, momentOf(sheet(), store.events, Date.now()));
    const [kg] = lighter(load);
    const key = part("ask-lighter");
    key.textContent = kg === undefined ? "Lighter next round" : lighterWords(load);
    key.onclick = () =>
      guarded(() =>
        kg === undefined
          ? forChosen("remark", { words: "lighter from the next round" })
          : setLoad(load, kg),
      );
    part("ask-words").textContent =
      `${person.short}: ${fault}, ${times(sheet().stop_after)} this round. ` +
      "Stop, or make it lighter?";
    part("ask").hidden = false;
    part("ask").querySelector("button").focus();
  }

  function close() {
    part("panel").hidden = true;
    part("ask").hidden = true;
  }

  return { open, close, actions: { "ask-stop": () => forChosen("athlete stopped") } };
}

function lighterWords({ lighter_kg: kg, lighter_put_on: plates }) {
  return plates ? `Lighter: ${kg} kg, from the store ${plates} a side` : `Lighter: ${kg} kg`;
}

function times(count) {
  return count === 1 ? "once" : `${count} times`;
}
