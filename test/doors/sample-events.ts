import type { StoredEvent } from "../../src/trial/index.ts";

/** UUIDv7 and trial ids that tests can write down: same number, same id. */
export function eventId(n: number): string {
  return `0198c0de-0000-7000-8000-${n.toString(16).padStart(12, "0")}`;
}
export function trialId(n: number): string {
  return `7a11a5ed-0000-4000-8000-${n.toString(16).padStart(12, "0")}`;
}

/** A note; `text` is its content. */
export function note(n: number, { trial = 1, text = `note ${n}` } = {}): StoredEvent {
  return {
    id: eventId(n),
    trial: trialId(trial),
    at: "2026-06-14T08:41:00Z",
    device: "phone",
    type: "note-written",
    v: 1,
    body: { stage: "plan", text },
  };
}
