// Groups that each have their own rhythm: who works and who helps; in a lane who goes and who next.
import { clockText } from "./moment.js";

const SHOW_START_S = 3;

export function groupWords(group, names) {
  if (group.lane) return laneWords(group, names);
  const { work, next } = group;
  if (work) return `${work.exercise}: ${names(work.who)}, ${clockText(group.left)}`;
  return next ? `next ${next.exercise} in ${clockText(next.in_s)}` : "done";
}

export function helpWords(group, names) {
  if (group.lane) return wayWords(group, names);
  return group.helping
    .filter((line) => line.who.length)
    .map((line) => `${line.role || line.title}: ${names(line.who)}`)
    .join("; ");
}

// Who has just started down the lane, or who starts next and when.
function laneWords({ work, next, left }, names) {
  const gone = work ? work.end_s - work.start_s - left : Infinity;
  if (gone < SHOW_START_S) return `go ${names(work.who)}`;
  if (next) return `next ${names(next.who)} in ${clockText(next.in_s)}`;
  return work ? "last one" : "done";
}

function wayWords({ work, onTheWay }, names) {
  if (!work) return "";
  return `${work.exercise}, on the way: ${names([...onTheWay, ...work.who])}`;
}
