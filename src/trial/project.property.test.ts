import fc from "fast-check";
import { expect, test } from "vitest";
import { hillTown } from "./demonstration/hill-town.ts";
import { InventedLog } from "./demonstration/log.ts";
import { exportTrial, parseExport } from "./export.ts";
import { freshMemory } from "./memory.ts";
import { project } from "./project.ts";
import type { StoredEvent } from "./view.ts";

const rows = Array.from(
  { length: 400 },
  (_, i) => `${i},${(7 + 12 * Math.exp(-i / 60)).toFixed(2)}`,
);
const hold = ["minute,micron", "0.0,405", "0.5,485", "1.0,545"].join("\n");
const base = hillTown({
  baseline: `time,vent F\n${rows.join("\n")}`,
  productB: "Zeit;ND kPa",
  hold,
});

const stages = ["plan", "prove", "recover", "charge"] as const;

/** Amendments of arbitrary entries by three devices: some sound, some not, some of each other. */
const amended = fc
  .array(
    fc.record({
      target: fc.nat(base.length - 1),
      device: fc.constantFrom("phone", "laptop", "bay tablet"),
      minute: fc.nat(59),
      kind: fc.constantFrom("entry-corrected", "entry-withdrawn"),
      sound: fc.boolean(),
      stage: fc.constantFrom(...stages),
    }),
    { maxLength: 12 },
  )
  .map((changes) => {
    const log = new InventedLog("2026-06-20T08:00:00Z");
    const all: StoredEvent[] = [...base];
    for (const { target, device, minute, kind, sound, stage } of changes) {
      const at = `2026-06-20T09:${String(minute).padStart(2, "0")}:00Z`;
      const victim = all[target] as StoredEvent;
      const body = sound
        ? { ...(victim.body as object), ...(victim.type === "note-written" && { stage }) }
        : {};
      const extra = kind === "entry-corrected" ? { body } : {};
      log.add(at, "note-written", { stage: "plan", text: "x" });
      const made = log.events.at(-1) as StoredEvent;
      all.push({
        ...made,
        trial: victim.trial,
        device,
        type: kind,
        body: { target: victim.id, reason: "r", ...extra },
      });
    }
    return all;
  });

/** The same events in another order, some of them twice. */
const delivered = amended.chain((events) =>
  fc
    .tuple(
      fc.shuffledSubarray(events, { minLength: events.length, maxLength: events.length }),
      fc.subarray(events),
    )
    .map(([shuffled, repeated]) => ({
      events,
      // Copies, because a second delivery is never the same object.
      late: [...shuffled, ...repeated.map((event) => structuredClone(event))],
    })),
);

test("order, repeats and late delivery change nothing", () => {
  const property = fc.property(delivered, ({ events, late }) => {
    expect(project(late)).toEqual(project(events));
  });
  fc.assert(property, { seed: 7, numRuns: 60 });
});

test("what comes in pieces gives what comes at once, with a kept memory or without", () => {
  const property = fc.property(delivered, fc.nat(), ({ events, late }, cut) => {
    const memory = freshMemory();
    const k = cut % (late.length + 1);
    project(late.slice(0, k), memory);
    expect(project(late, memory)).toEqual(project(events));
  });
  fc.assert(property, { seed: 8, numRuns: 40 });
});

test("export and import give the same view, and equal logs equal files", () => {
  const property = fc.property(delivered, ({ events, late }) => {
    const text = JSON.stringify(exportTrial(late));
    expect(text).toBe(JSON.stringify(exportTrial(events)));
  });
  fc.assert(property, { seed: 9, numRuns: 40 });
  const parsed = parseExport(JSON.parse(JSON.stringify(exportTrial(base))));
  expect(parsed.kind).toBe("export");
  if (parsed.kind === "export") expect(project(parsed.events)).toEqual(project(base));
});

test("no event is lost: each is an entry, an amendment of one, or refused with a reason", () => {
  const property = fc.property(amended, (events) => {
    const view = project(events);
    const shown = new Set([
      ...view.refused.map(({ id }) => id),
      ...view.entries.flatMap(({ id, corrections, withdrawn }) => [
        id,
        ...(withdrawn?.ids ?? []),
        ...corrections.flatMap((one) => [one.id, ...(one.withdrawn?.ids ?? [])]),
      ]),
    ]);
    expect(events.filter(({ id }) => !shown.has(id))).toEqual([]);
  });
  fc.assert(property, { seed: 10, numRuns: 60 });
});
