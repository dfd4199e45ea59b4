// Somebody is hurt: the clock is held, the card is shown, what happened is noted in a few taps. A
// head knock takes him out at once, and no tap on any device brings him back.
import { clockOf, inForce, OUT, outOf } from "./record.js";

const MINUTE_MS = 60000;
const LONGEST_WORDS = 1000;
const ONE_OF = new Set(["who", "what", "area"]);

export function offerHelp({ root, part, choice, guarded, note, sheet, store, round }) {
  const card = part("emergency");
  const headKnock = card.dataset.headKnock;
  const cleared = new Set(card.dataset.cleared.split(" "));
  let stoppedAt = 0;
  let isOnClock = false;
  let timer = 0;

  // ---- the stop --------------------------------------------------------------------------------

  async function open() {
    const clock = clockOf(store.events);
    const held = lastOf("held");
    isOnClock = clock.started && !clock.ended;
    stoppedAt = isOnClock && !clock.running && held ? held.at : Date.now();
    part("help-said").textContent = "";
    show();
    card.showModal();
    timer = setInterval(show, 1000);
    if (clock.running) await note("held");
  }

  function show() {
    const word = isOnClock ? "Stopped" : "Opened";
    part("stop-time").textContent = `${word} ${timeOf(stoppedAt)},`;
    part("stop-ago").textContent = `${lengthOf(Date.now() - stoppedAt)} ago`;
  }

  function close() {
    clearInterval(timer);
    card.close();
  }

  function lastOf(kind) {
    return inForce(store.events).filter((event) => event.kind === kind).pop();
  }

  // ---- the note --------------------------------------------------------------------------------

  function openNote() {
    part("incident-time").textContent = `Stopped ${timeOf(stoppedAt)}`;
    part("incident-who").replaceChildren(
      ...sheet().people
        .filter((person) => person.status !== "absent")
        .map((person) => whoChoice(person)),
    );
    for (const key of pressed()) press(key, false);
    part("incident-words").value = "";
    part("incident").showModal();
    part("incident").querySelector(".help-scroll").scrollTop = 0;
    tellMissing();
  }

  function whoChoice(person) {
    const key = choice(person.short, () => toggle(key));
    key.dataset.of = "who";
    key.dataset.athlete = person.id;
    key.setAttribute("aria-pressed", "false");
    return key;
  }

  function toggle(key) {
    const isOn = key.getAttribute("aria-pressed") === "true";
    if (ONE_OF.has(key.dataset.of)) pressed(key.dataset.of).forEach((other) => press(other, false));
    press(key, !isOn);
    tellMissing();
  }

  function press(key, isOn) {
    key.setAttribute("aria-pressed", String(isOn));
  }

  function pressed(name) {
    const of = name ? `[data-of="${name}"]` : "";
    return [...part("incident").querySelectorAll(`${of}[aria-pressed="true"]`)];
  }

  function chosen(name) {
    return pressed(name).map((key) => key.textContent);
  }

  function tellMissing() {
    const [what] = chosen("what");
    const [who] = chosen("who");
    let missing = "";
    if (!what) missing = "Tap what happened.";
    else if (what === headKnock && !who) missing = "Tap who it is.";
    part("incident-missing").textContent = missing;
    part("incident-write").disabled = Boolean(missing);
    part("incident-write").textContent =
      what === headKnock && who ? `Write it down: ${who} is out` : "Write it down";
  }

  async function write() {
    const key = pressed("who")[0];
    const athlete = key?.dataset.athlete || "";
    const [what] = chosen("what");
    const words = wordsOf(what);
    const at = { athlete, round: athlete ? round(athlete) : 0 };
    part("incident").close();
    if (what === headKnock) {
      // First what keeps him out; the note may follow or not.
      await note(OUT, at);
      part("help-said").textContent =
        `${key.textContent} is out until a written clearance is entered in the register. ` +
        "Undo does not end that.";
    } else part("help-said").textContent = "It is written down.";
    await note("incident", { ...at, words });
  }

  function wordsOf(what) {
    const own = part("incident-words").value.trim().replace(/\s+/g, " ");
    return [
      raised(what),
      `Stopped ${timeOf(stoppedAt)}`,
      ...listed("Body area", chosen("area")),
      ...listed("Done", chosen("done")),
      ...listed("Called", chosen("called")),
      own.replace(/\.$/, ""),
    ]
      .filter(Boolean)
      .map((each) => `${each}.`)
      .join(" ")
      .slice(0, LONGEST_WORDS);
  }

  // ---- who is out ------------------------------------------------------------------------------

  // Empty: he is not out. What it was is shown by the device alone that noted it.
  function outWords(athlete) {
    const out = outOf(store.events, athlete, cleared);
    if (!out.length) return "";
    return out.some((event) => event.device === store.device) ? "out: head" : "out";
  }

  function tellOut(person) {
    part("out-name").textContent = `${person.name} is out`;
    part("out").showModal();
  }

  for (const key of root.querySelectorAll("[data-of]")) {
    key.addEventListener("click", () => guarded(() => toggle(key)));
  }
  card.addEventListener("close", () => clearInterval(timer));

  return {
    outWords,
    tellOut,
    actions: {
      emergency: open,
      "emergency-close": close,
      incident: openNote,
      "incident-write": write,
      "incident-close": () => part("incident").close(),
      "out-close": () => part("out").close(),
    },
  };
}

function listed(name, words) {
  return words.length ? [`${name}: ${words.join(", ")}`] : [];
}

function raised(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

function timeOf(at) {
  return new Date(at).toLocaleTimeString("en-GB");
}

function lengthOf(ms) {
  const minutes = Math.floor(ms / MINUTE_MS);
  return `${minutes}:${String(Math.floor((ms % MINUTE_MS) / 1000)).padStart(2, "0")}`;
}
