// Words and clock times of the mats.
export function moveWords(found) {
  if (found.move === 4) return "May not compete";
  if (found.move === 3) return "Finished for the day";
  if (found.move === 2) return "Bouts ahead not said";
  return found.move === 0 ? "Warm up now" : `Warm up in about ${Math.ceil(found.toWarmUp)} min`;
}

export function estimate(found) {
  if (found.toCall === null) return "";
  return found.toCall < 1 ? "next on the mat" : `about ${Math.ceil(found.toCall)} min to the call`;
}

export function clock(minutes) {
  const seconds = Math.max(0, Math.floor(minutes * 60));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

export function onTheClock(minutes) {
  const parts = [Math.floor(minutes / 60), minutes % 60];
  return parts.map((part) => String(part).padStart(2, "0")).join(":");
}
