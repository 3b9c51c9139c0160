import { signal } from "@preact/signals";

/** Does this device make a sound when all has settled? Off until somebody wants it. */
export const sounds = signal(false);

let audio: AudioContext | undefined;

/** Switches the sound; a browser lets a page make one only after a touch, so this is called from one. */
export function setSounds(on: boolean): void {
  sounds.value = on;
  if (!on) return;
  audio ??= new AudioContext();
  void audio.resume();
  tone(audio, 0, 0.08);
}

/** Three short tones and a shake of the phone, when they are wanted. */
export function beep(): void {
  if (!sounds.value) return;
  if ("vibrate" in navigator) navigator.vibrate([200, 100, 200]);
  if (audio) for (let k = 0; k < 3; k++) tone(audio, 0.25 * k, 0.15);
}

/** Tones that carry over a running engine. */
const hertz = 1760;

function tone(context: AudioContext, after: number, seconds: number): void {
  const start = context.currentTime + after;
  const source = new OscillatorNode(context, { type: "square", frequency: hertz });
  const level = new GainNode(context, { gain: 0 });
  // A ramp at both ends: a tone that is cut clicks.
  level.gain.setValueAtTime(0, start);
  level.gain.linearRampToValueAtTime(0.25, start + 0.01);
  level.gain.setValueAtTime(0.25, start + seconds - 0.02);
  level.gain.linearRampToValueAtTime(0, start + seconds);
  source.connect(level).connect(context.destination);
  source.start(start);
  source.stop(start + seconds);
}
