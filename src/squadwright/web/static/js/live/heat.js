// The heat of the hall: a reading is entered under Change. Whom the gate stops is not started into
// another round; where that is everybody, the clock stands when the work under way ends. It needs
// no server, and no tap but a lower reading lifts it. The server goes by the same rules
// (planning/gates/heat_stop.py, services/live_heat.py).
import { clockOf, FOR_HEAT, HEAT_KINDS, inForce, outOf, placeAt } from "./record.js";

const [READ, STOP, OVER] = HEAT_KINDS;
const COLDEST_C = -20;
const HOTTEST_C = 60;

export function offerHeat({ part, note, sheet, store, isOut, close }) {
  const field = part("heat-value");

  function stopOf(id) {
    return inForce(store.events)
      .filter((e) => e.athlete === id && ["athlete stopped", "athlete went on"].includes(e.kind))
      .pop();
  }

  function isStoppedForHeat(id) {
    const last = stopOf(id);
    return last?.kind === "athlete stopped" && last.words === FOR_HEAT;
  }

  function takingPart() {
    return sheet().people.filter(({ id, status }) => {
      const isHere = ["present", "late"].includes(status) && !isOut(id);
      return isHere && (stopOf(id)?.kind !== "athlete stopped" || isStoppedForHeat(id));
    });
  }

  async function write() {
    const typed = field.value.trim().replace(",", ".");
    const value = Number(typed);
    if (!typed || !(value >= COLDEST_C && value <= HOTTEST_C)) {
      part("heat-wrong").textContent =
        `${typed || "Nothing"} is no reading from ${COLDEST_C} to ${HOTTEST_C} °C WBGT. Read the meter and write its number.`;
      return;
    }
    part("heat-wrong").textContent = "";
    field.value = "";
    close();
    const read = Math.round(value * 10) / 10;
    await note(READ, { value: read });
    const here = takingPart();
    const hot = here.filter((each) => each.heat_stop_c !== null && read >= each.heat_stop_c);
    const clock = clockOf(store.events);
    if (here.length && hot.length === here.length) {
      if (clock.stopsAt === null) await note(STOP, { value: endOfWork(clock) });
      return;
    }
    if (clock.stopsAt !== null) await note(OVER);
    for (const each of here) {
      if (isStoppedForHeat(each.id) === hot.includes(each)) continue;
      const kind = hot.includes(each) ? "athlete stopped" : "athlete went on";
      await note(kind, { athlete: each.id, words: FOR_HEAT });
    }
  }

  function endOfWork(clock) {
    const place = placeAt(clock, Date.now());
    if (!clock.running) return place;
    const ends = sheet().lines
      .filter((l) => l.kind === "work" && l.start_s <= place && place < l.end_s)
      .map((line) => line.end_s);
    return ends.length ? Math.max(...ends) : place;
  }

  function draw(moment) {
    const words = moment.phase === "ended" ? "" : heatWords(moment);
    const told = part("heat");
    if (told.textContent !== words) told.textContent = words;
    told.hidden = !words;
  }

  function heatWords(moment) {
    const last = inForce(store.events).filter((event) => event.kind === READ).pop();
    const read = last ? `${last.value} °C WBGT` : "The heat";
    const rest =
      "Shade and rest. Medical staff and local rules decide; a lower reading, entered under " +
      "Change, lets it go on.";
    if (moment.stopsAt !== null && moment.stopsAt !== undefined) {
      const when = moment.phase === "heat" ? "Stopped" : "This round is the last";
      return `${when}. ${read}: cancel, nobody is started into another round. ${rest}`;
    }
    const names = sheet().people.filter(({ id }) => isStoppedForHeat(id)).map((p) => p.short);
    return names.length ? `${read}: cancel for ${names.join(", ")}. ${rest}` : "";
  }

  return { draw, isStoppedForHeat, actions: { heat: write } };
}
