// What is heard, felt and seen when a part begins, ends soon or a lane starts; the screen stays on.
import { startsNow } from "./moment.js";
import { keepAwake } from "./screen.js";
import { signal } from "./signals.js";

const SOON_S = 3;

export function offerCues({ root, onNewPart }) {
  let shown = { line: "", phase: "", soon: false, starts: "" };
  let awake = null;

  function tell(moment) {
    const line = moment.main ? `${moment.main.start_s} ${moment.main.title}` : "";
    if (moment.phase === "on" && shown.phase === "on" && line !== shown.line) {
      signal(!moment.main ? "stop" : moment.main.kind === "work" ? "go" : "change");
      root.dataset.flash = root.dataset.flash === "a" ? "b" : "a";
      onNewPart();
    }
    if (moment.phase === "heat" && shown.phase === "on") signal("stop");
    const soon = moment.phase === "on" && moment.left <= SOON_S && moment.left > 0;
    const starts = moment.phase === "on" ? startsNow(moment) : "";
    if (starts && starts !== shown.starts && shown.line === line) signal("start");
    if (soon && !shown.soon && shown.line === line) signal("soon");
    shown = { line, phase: moment.phase, soon, starts };
    stayAwake(moment.phase);
  }

  function stayAwake(phase) {
    if (phase === "on" && !awake) awake = keepAwake();
    if (phase === "ended" && awake) {
      awake();
      awake = null;
    }
  }

  return { tell };
}
