// Sound and vibration are the second channel: each signal has its own rhythm, not only its pitch.
const SIGNALS = {
  go: { tones: [[880, 0, 0.16], [1320, 0.2, 0.45]], buzz: [160, 60, 400] },
  change: { tones: [[1320, 0, 0.1], [880, 0.16, 0.1], [1320, 0.32, 0.1]], buzz: [90, 70, 90, 70, 90] },
  stop: { tones: [[660, 0, 0.9]], buzz: [900] },
  start: { tones: [[1100, 0, 0.12]], buzz: [120] },
  soon: { tones: [[990, 0, 0.07]], buzz: [60] },
};
let audio = null;

// A browser lets a page sound only after a touch: call this from the first one.
export function allowSound() {
  audio = audio || new (window.AudioContext || window.webkitAudioContext)();
  audio.resume();
}

export function signal(name) {
  const { tones, buzz } = SIGNALS[name];
  // Before the first touch a browser refuses to buzz, as it refuses to sound.
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(buzz);
  if (!audio || audio.state !== "running") return;
  for (const [pitch, after, length] of tones) {
    const at = audio.currentTime + after;
    const voice = audio.createOscillator();
    const level = audio.createGain();
    voice.type = "square";
    voice.frequency.value = pitch;
    level.gain.setValueAtTime(0, at);
    level.gain.linearRampToValueAtTime(0.9, at + 0.01);
    level.gain.setValueAtTime(0.9, at + length - 0.02);
    level.gain.linearRampToValueAtTime(0, at + length);
    voice.connect(level).connect(audio.destination);
    voice.start(at);
    voice.stop(at + length);
  }
}
