import { expect, test } from "vitest";
import { fold } from "./fold.ts";
import { InventedLog } from "./demonstration/log.ts";
import type { StoredEvent } from "./view.ts";

const noon = "2026-06-14T12:00:00Z";
const note = (text: string) => ({ stage: "plan" as const, text });

/** A log with one note, and a way to add amendments from any device. */
function started() {
  const log = new InventedLog(noon);
  log.add(noon, "trial-opened", { title: "t", question: "q" });
  const target = log.add(noon, "note-written", note("first"));
  const amend = (at: string, device: string, body: object, type = "entry-corrected") => {
    log.add(at, "note-written", note("placeholder"));
    const made = log.events.pop();
    const event = { ...made, device, type, body } as StoredEvent;
    extra.push(event);
    return event.id;
  };
  const extra: StoredEvent[] = [];
  const folded = () => fold([...log.events, ...extra]);
  const entry = () => folded().entries.find(({ id }) => id === target);
  return { log, target, amend, folded, entry, extra };
}

const at = (minute: number) => `2026-06-14T12:${String(minute).padStart(2, "0")}:00Z`;

test("a correction replaces the body and the original stays", () => {
  const { target, amend, entry } = started();
  amend(at(1), "phone", { target, body: note("second"), reason: "typo" });
  expect(entry()).toMatchObject({
    body: { text: "second" },
    original: { text: "first" },
    conflict: [],
    corrections: [{ reason: "typo", effective: true }],
  });
});

test("two devices that correct independently make a conflict; the latest holds", () => {
  const { target, amend, entry } = started();
  const phone = amend(at(1), "phone", { target, body: note("phone"), reason: "r" });
  const laptop = amend(at(2), "laptop", { target, body: note("laptop"), reason: "r" });
  expect(entry()).toMatchObject({ body: { text: "laptop" }, conflict: [phone] });
  // Somebody who has both before their eyes settles it.
  const supersedes = [phone, laptop];
  amend(at(3), "phone", { target, body: note("both"), reason: "r", supersedes });
  expect(entry()).toMatchObject({ body: { text: "both" }, conflict: [] });
});

test("two corrections from one device follow each other without conflict", () => {
  const { target, amend, entry } = started();
  amend(at(1), "phone", { target, body: note("one"), reason: "r" });
  amend(at(2), "phone", { target, body: note("two"), reason: "r" });
  expect(entry()).toMatchObject({ body: { text: "two" }, conflict: [] });
});

test("a withdrawn correction gives way to the one before, a withdrawn entry stays visible", () => {
  const { target, amend, entry } = started();
  const wrong = amend(at(1), "phone", { target, body: note("wrong"), reason: "r" });
  amend(at(2), "phone", { target: wrong, reason: "wrong entry" }, "entry-withdrawn");
  expect(entry()).toMatchObject({ body: { text: "first" }, corrections: [{ effective: false }] });
  expect(entry()?.withdrawn).toBeUndefined();
  amend(at(3), "phone", { target, reason: "never happened" }, "entry-withdrawn");
  expect(entry()?.withdrawn).toMatchObject({ reason: "never happened", device: "phone" });
});

test("what cannot be used is kept with its reason", () => {
  const { log, target, amend, folded, extra } = started();
  const good = amend(at(1), "phone", { target, body: note("x"), reason: "r" });
  const unknown = "00000000-0000-7000-8000-000000000001";
  amend(at(2), "phone", { target: unknown, body: {}, reason: "r" });
  amend(at(3), "phone", { target: good, body: note("y"), reason: "r" });
  amend(at(4), "phone", { target, body: { stage: "plan", text: "" }, reason: "r" });
  amend(at(5), "phone", { target }, "entry-withdrawn");
  extra.push({ ...(log.events[1] as StoredEvent), body: { stage: "nowhere" } });
  extra.push({ ...(log.events[1] as StoredEvent), id: unknown, trial: unknown });
  const reasons = folded().refused.map(({ reason }) => reason);
  expect([...reasons].sort()).toEqual([
    "bad-body",
    "bad-correction",
    "other-trial",
    "same-id-other-content",
    "target-not-an-entry",
    "unknown-target",
  ]);
  expect(folded().entries).toHaveLength(2);
});

test("`when` and not `at` gives the place in the order", () => {
  const log = new InventedLog(noon);
  log.add(at(0), "note-written", { ...note("later"), when: "2026-06-14T16:00:00+02:00" });
  log.add(at(1), "note-written", { ...note("earlier"), when: "2026-06-14T15:00:00+02:00" });
  const texts = fold(log.events).entries.map(({ body }) => ("text" in body ? body.text : ""));
  expect(texts).toEqual(["earlier", "later"]);
});

test("an empty log is a log", () => {
  expect(fold([])).toEqual({ entries: [], refused: [] });
});
