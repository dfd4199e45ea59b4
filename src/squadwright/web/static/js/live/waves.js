// Into which wave somebody was put on the floor, and the question where two devices say different
// things: the same rules as on the server (planning/live/waves.py).
import { inForce, inOrder } from "./record.js";

const KIND = "into wave";

export function waveQuestions(events) {
  const record = inOrder(events);
  const holding = new Set(inForce(events).map((event) => event.id));
  const takers = new Map();
  for (const event of record) {
    if (!event.takes_back) continue;
    if (!takers.has(event.takes_back)) takers.set(event.takes_back, new Set());
    takers.get(event.takes_back).add(event.device);
  }
  const put = record.filter((event) => event.kind === KIND);
  const athletes = [...new Set(put.map((event) => event.athlete))].sort();
  return athletes.flatMap((athlete) => {
    const own = put.filter((event) => event.athlete === athlete);
    const held = own.filter((event) => holding.has(event.id));
    const isTakenByOther = (event) =>
      [...(takers.get(event.id) || [])].some((device) => device !== event.device);
    const last = held.length
      ? [...new Map(held.map((event) => [event.device, event])).values()]
      : own.filter(isTakenByOther);
    const choices = new Map(
      last.map(({ value, author, device }) => [value, { wave: value, author, device }]),
    );
    if (choices.size < 2) return [];
    return [{ athlete, choices: [...choices.values()].sort((a, b) => a.wave - b.wave) }];
  });
}

export function wavesOf(events) {
  return new Map(
    inForce(events)
      .filter((event) => event.kind === KIND)
      .map((event) => [event.athlete, event.value]),
  );
}

// Ids of the events that an answer for a wave takes back.
export function against(events, athlete, wave) {
  return inForce(events)
    .filter((e) => e.kind === KIND && e.athlete === athlete && e.value !== wave)
    .map((event) => event.id);
}

// The people of a wave at work: without those put elsewhere, with those put into it.
export function withMoved(events, main, people) {
  if (!main || main.kind !== "work" || !main.wave) return people;
  const moved = wavesOf(events);
  const come = [...moved].filter(([id, wave]) => wave === main.wave && !people.includes(id));
  return [
    ...people.filter((id) => (moved.get(id) ?? main.wave) === main.wave),
    ...come.map(([id]) => id),
  ];
}

// The keys that put somebody into another wave, and the panel that asks.
export function offerWaves({ part, choice, note, sheet, store }) {
  const letter = (wave) => sheet().waves[wave - 1]?.[0] || String(wave);
  const name = (id) => sheet().people.find((person) => person.id === id)?.short || id;
  let asked = "";

  async function answer(athlete, wave) {
    for (const id of against(store.events, athlete, wave)) {
      await note("taken back", { takes_back: id });
    }
    if (wavesOf(store.events).get(athlete) !== wave) await note(KIND, { athlete, value: wave });
  }

  function keys(moveTo) {
    if (sheet().waves.length < 2) return [];
    const moves = sheet().waves.map((_, at) =>
      choice(`Into wave ${letter(at + 1)}`, () => moveTo(KIND, { value: at + 1 })),
    );
    return [choice("Other wave", () => part("losses").replaceChildren(...moves))];
  }

  function draw() {
    const question = waveQuestions(store.events)[0];
    const wanted = question ? JSON.stringify(question) : "";
    if (wanted === asked) return;
    asked = wanted;
    part("which-wave").hidden = !question;
    if (!question) return;
    const { athlete, choices } = question;
    const said = choices.map(
      ({ wave, author, device }) =>
        `wave ${letter(wave)} by ${author || (device === store.device ? "this device" : "the coach")}`,
    );
    part("which-wave-words").textContent = `${name(athlete)} is in ${said.join(" and in ")}: which?`;
    part("which-wave-choices").replaceChildren(
      ...choices.map(({ wave }) => choice(`Wave ${letter(wave)}`, () => answer(athlete, wave))),
    );
  }

  return { keys, draw };
}
