// What this device noted last, told for some seconds: a wrong tap is seen while it is easy to undo.
const SHOWN_MS = 6000;
const WORDS = {
  fault: (event) => event.words,
  "repetitions lost": ({ value }) => `${value} rep${value > 1 ? "s" : ""} lost`,
  "load changed": ({ value }) => `${value} kg`,
  "athlete stopped": () => "stops",
  "athlete went on": () => "goes on",
};

export function justNoted(event, people, now) {
  const words = event && now - event.at < SHOWN_MS ? WORDS[event.kind]?.(event) : "";
  if (!words) return "";
  const person = people.find((each) => each.id === event.athlete);
  return `Noted: ${person?.short || event.athlete}, ${words}.`;
}
