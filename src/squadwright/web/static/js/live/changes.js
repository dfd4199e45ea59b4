// What changes while the session runs: minutes left, somebody comes, a bar is out of use. It is
// noted here; the server works it into the sheet, and until then the sheet goes on as it is.
import { justNoted } from "./just_noted.js";

const MINUTES = [5, 8, 10, 12, 15, 20, 25, 30];
const SHOWN_MS = 20000;

export function offerChanges({ part, choice, note, sheet, events, last, isReached }) {
  let noted = null;
  let drawn = null;
  let shownUntil = 0;

  function open() {
    const out = new Set(
      events().filter((event) => event.kind === "bar out of use").map((event) => event.words),
    );
    const come = new Set(
      events().filter((event) => event.kind === "joined late").map((event) => event.athlete),
    );
    fill("change-minutes", MINUTES.map((minutes) =>
      choice(`${minutes} min`, () => tell("minutes left", { value: minutes })),
    ));
    fill("change-late", sheet().people
      .filter((person) => ["absent", "late"].includes(person.status) && !come.has(person.id))
      .map((person) => choice(person.short, () => tell("joined late", { athlete: person.id }))),
    );
    fill("change-bars", sheet().bars
      .filter((bar) => !out.has(bar.id))
      .map((bar) => choice(`Bar ${bar.number}`, () => tell("bar out of use", { words: bar.id }))),
    );
    part("change").hidden = false;
    part("change").querySelector("button").focus();
  }

  function item(words) {
    const made = document.createElement("li");
    made.textContent = words;
    return made;
  }

  function fill(name, buttons) {
    part(name).replaceChildren(...buttons);
    part(`${name}-part`).hidden = !buttons.length;
  }

  async function tell(kind, more) {
    close();
    noted = sheet().number;
    await note(kind, more);
  }

  function close() {
    part("change").hidden = true;
  }

  // A change is told in place of what comes next for some seconds; the panel keeps it all.
  function draw(now) {
    const { number, told } = sheet();
    if (number !== drawn) {
      if (drawn !== null) shownUntil = now + SHOWN_MS;
      drawn = number;
      part("told-all").replaceChildren(...told.map((words) => item(words)));
    }
    const isWaiting = noted === number;
    let words = "";
    if (isWaiting && !isReached()) words = "No server: the sheet stays as it is. Use Next and End by hand.";
    else if (isWaiting) words = "Working out the sheet from here.";
    else if (now < shownUntil) words = `${head(told)}. All of it under Change.`;
    else words = justNoted(last(), sheet().people, now);
    part("told").textContent = words;
    part("next").hidden = part("rests").hidden = Boolean(words);
  }

  return { open, close, draw };
}

// What has happened, without what follows from it.
function head(told) {
  const last = told[told.length - 1];
  return last ? last.split(/[:.]/)[0] : "The sheet is as it was";
}
