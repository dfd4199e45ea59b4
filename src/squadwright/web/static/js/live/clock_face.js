// The clock of the floor: what is on, how long it lasts, what comes next, who rests.
import { clockText } from "./moment.js";
import { drawNumerals } from "./numerals.js";

const BLOCKS = 12;

export function drawClock(part, sheet, moment) {
  // Once it has ended nothing is under way: no wave, no time left, nothing next.
  const main = moment.phase === "ended" ? null : moment.main;
  part("title").textContent = titleOf(moment);
  part("round").textContent = roundWords(sheet, main);
  const wave = main?.wave ? sheet.waves[main.wave - 1] : null;
  part("wave").dataset.shape = wave ? wave[1] : "";
  part("wave-letter").textContent = wave ? wave[0] : "";
  const left = ["before", "heat", "ended"].includes(moment.phase) ? 0 : moment.left;
  const text = left >= 6000 ? String(Math.floor(left / 60)) : clockText(left);
  drawNumerals(part("numerals"), text);
  part("time-words").textContent = `${text} left`;
  const share = main ? Math.ceil((left / moment.whole) * BLOCKS - 1e-6) : 0;
  [...part("blocks").children].forEach((block, at) => {
    block.classList.toggle("full", at < share);
  });
  part("next").textContent = nextWords(sheet, moment);
  part("rests").textContent = restWords(sheet, moment);
}

function titleOf(moment) {
  if (moment.phase === "before") return "Not started";
  if (moment.phase === "ended") return "Ended";
  if (moment.phase === "heat") return "Stopped: heat";
  if (moment.phase === "held") return "Held: bars down";
  if (moment.is_over) return "The sheet is done";
  const { main } = moment;
  if (!main) return "Pause";
  if (main.kind === "work") return "Work";
  return main.title.charAt(0).toUpperCase() + main.title.slice(1);
}

function roundWords(sheet, main) {
  if (!main || !main.block) return sheet.name;
  const block = sheet.blocks.find((each) => each.name === main.block);
  const round = main.round && block?.rounds ? `, round ${main.round} of ${block.rounds}` : "";
  return main.kind === "block" ? sheet.name : `${main.block}${round}`;
}

function nextWords(sheet, moment) {
  if (["before", "heat", "ended"].includes(moment.phase)) return "";
  const next = moment.next;
  if (!next) return "Next: nothing more on the sheet";
  const wave = next.wave ? `wave ${sheet.waves[next.wave - 1][0]}` : "";
  const what = next.kind === "work" ? [wave, next.round ? `round ${next.round}` : ""] : [next.title];
  return `Next: ${what.filter(Boolean).join(", ")} in ${clockText(next.in_s)}.`;
}

function restWords(sheet, moment) {
  if (!moment.rests || moment.phase === "ended") return "";
  return moment.rests
    .map(({ wave, left }) => `${sheet.waves[wave - 1][0]} rests ${clockText(left)} more`)
    .join(". ");
}
