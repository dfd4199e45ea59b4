// The screen: kept awake while a session runs, and its real size, measured with a bank card.
const CARD_MM = 85.6; // width of a card by ISO/IEC 7810, ID-1
const KEY = "squadwright-pixels-per-mm";

export function keepAwake() {
  let lock = null;
  const take = async () => {
    try {
      lock = await navigator.wakeLock.request("screen");
    } catch {
      lock = null;
    }
  };
  document.addEventListener("visibilitychange", () => document.hidden || take());
  take();
  return () => lock?.release();
}

export function useMeasuredSize() {
  const kept = Number(localStorage.getItem(KEY));
  if (kept > 1 && kept < 40) document.documentElement.style.setProperty("--mm", `${kept}px`);
}

// A slider makes a drawn card as wide as a real one held against the screen.
export function measureBy(slider, card) {
  const show = () => {
    card.style.inlineSize = `${slider.value}px`;
  };
  slider.addEventListener("input", show);
  slider.addEventListener("change", () => {
    localStorage.setItem(KEY, String(Number(slider.value) / CARD_MM));
    useMeasuredSize();
  });
  const kept = Number(localStorage.getItem(KEY));
  if (kept) slider.value = String(kept * CARD_MM);
  show();
}
