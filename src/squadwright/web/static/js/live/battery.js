// The battery is low: dark, drawn less often, sound as before; what comes next as a list for paper.
// Where the browser does not tell the battery, the coach says that it is low.
import { boundaries, linesAt } from "./record.js";
import { clockText, lastSecond, loadOf, loadWords, mainLine } from "./moment.js";

const LOW_LEVEL = 0.15;
const STEP_S = 5;
const EACH_SECOND_FROM_S = 10;
const DARK = "white-on-black";

export function saveBattery({ root, part, sheet, moment, events, onChange }) {
  let level = null;
  let lasts_s = Infinity;
  let isTold = false;
  let isSaid = false;
  let wasLow = false;
  let former = "";

  const isLow = () => isTold || isSaid;

  async function listen() {
    const battery = await navigator.getBattery?.().catch(() => null);
    if (!battery) return;
    const read = () => {
      level = battery.level;
      lasts_s = battery.charging ? Infinity : battery.dischargingTime;
      isTold = !battery.charging && level <= LOW_LEVEL;
      apply();
    };
    for (const kind of ["levelchange", "chargingchange", "dischargingtimechange"]) {
      battery.addEventListener(kind, read);
    }
    read();
  }

  function apply() {
    const low = isLow();
    const page = document.documentElement;
    if (low && !wasLow) {
      former = page.dataset.theme;
      page.dataset.theme = DARK;
    }
    if (!low && wasLow && page.dataset.theme === DARK) page.dataset.theme = former;
    wasLow = low;
    root.dataset.battery = low ? "low" : "";
    onChange();
  }

  function draw(now) {
    const said = [`${levelWords()}.`, needWords(now), "Next steps: under Setting."];
    const words = isLow() ? said.filter(Boolean).join(" ") : "";
    part("battery").hidden = !isLow();
    if (part("battery").textContent !== words) part("battery").textContent = words;
    part("battery-key").textContent = isSaid ? "The battery is not low" : "The battery is low";
  }

  function levelWords() {
    const guess = Number.isFinite(lasts_s) ? `, about ${Math.floor(lasts_s / 60)} min by its own guess` : "";
    return isTold ? `Battery ${Math.round(level * 100)} %${guess}` : "The battery is low";
  }

  function needWords({ phase, place }) {
    if (phase === "ended" || place === null) return "";
    const minutes = Math.ceil((lastSecond(sheet()) - place) / 60);
    return minutes > 0 ? `The session still needs ${minutes} min.` : "";
  }

  // Milliseconds until the screen has to be drawn again; whatever sounds is never late.
  function untilDrawn({ left, place }) {
    const step = isLow() && left > EACH_SECOND_FROM_S ? STEP_S : 1;
    const next = boundaries(sheet().lines).find((second) => second > place) ?? Infinity;
    if (left <= 0) return Math.min(step, next - place) * 1000;
    return Math.min(left % step || step, left, next - place) * 1000;
  }

  // ---- for paper -------------------------------------------------------------------------------

  function openPaper() {
    const here = moment();
    const place = here.place ?? 0;
    const isOn = here.phase === "on";
    const at = (second) =>
      isOn
        ? new Date(Date.now() + (second - place) * 1000).toLocaleTimeString("en-GB")
        : `+${clockText(second - place)}`;
    const lines = comingLines(place);
    part("paper-list").replaceChildren(
      ...lines.map((line) => {
        const row = document.createElement("li");
        row.textContent = `${at(Math.max(place, line.start_s))} ${lineWords(line)}`;
        return row;
      }),
    );
    part("paper-head").textContent = isOn
      ? "By the time of day, if nothing is held or moved."
      : "By minutes from when it goes on.";
    part("paper").showModal();
  }

  function comingLines(place) {
    const seconds = [place, ...boundaries(sheet().lines).filter((second) => second > place)];
    const lines = seconds.map((second) => mainLine(sheet(), linesAt(sheet().lines, second)));
    return lines.filter(
      (line, at) =>
        line && lines.findIndex((other) => other && other.start_s === line.start_s && other.title === line.title) === at,
    );
  }

  function lineWords(line) {
    const until = `${clockText(line.end_s - line.start_s)} long`;
    if (line.kind !== "work") return `${line.title}, ${until}`;
    const people = new Map(sheet().people.map((person) => [person.id, person]));
    const who = line.who.map((id) => {
      const person = people.get(id);
      const load = person ? loadWords(loadOf(person, line.block, line.start_s, events())) : "";
      return [person?.short || id, load].filter(Boolean).join(" ");
    });
    const wave = line.wave ? `wave ${sheet().waves[line.wave - 1][0]}` : "";
    const what = [line.block, line.round ? `round ${line.round}` : "", wave, line.exercise];
    return `${what.filter(Boolean).join(", ")}, ${until}: ${who.join("; ")}`;
  }

  listen();
  return {
    isLow,
    draw,
    untilDrawn,
    actions: {
      battery: () => {
        isSaid = !isSaid;
        apply();
      },
      paper: openPaper,
      "paper-close": () => part("paper").close(),
    },
  };
}
