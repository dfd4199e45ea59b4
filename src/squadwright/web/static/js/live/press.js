// Touches on the floor: a slip counts once, and what cannot be wanted by accident is held.
import { allowSound } from "./signals.js";

const DOUBLE_TAP_MS = 250;
const HOLD_MS = 1000;

let lastTap = 0;

export function guarded(action) {
  const now = Date.now();
  if (now - lastTap < DOUBLE_TAP_MS) return;
  lastTap = now;
  allowSound();
  action();
}

// A key with words on it, as panels show them.
export function choice(text, action) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "choice";
  button.textContent = text;
  button.addEventListener("click", () => guarded(action));
  return button;
}

// Held for a second; by keyboard the key is held as well.
export function holdFor(button, action) {
  let waiting = 0;
  const begin = (event) => {
    if (event.type === "keydown" && event.key !== "Enter" && event.key !== " ") return;
    if (event.type === "keydown") event.preventDefault();
    if (waiting) return;
    button.classList.add("holding");
    waiting = setTimeout(() => {
      end();
      allowSound();
      action();
    }, HOLD_MS);
  };
  const end = () => {
    clearTimeout(waiting);
    waiting = 0;
    button.classList.remove("holding");
  };
  for (const kind of ["pointerdown", "keydown"]) button.addEventListener(kind, begin);
  for (const kind of ["pointerup", "pointerleave", "pointercancel", "keyup", "blur"]) {
    button.addEventListener(kind, end);
  }
  button.addEventListener("contextmenu", (event) => event.preventDefault());
}
