import type { EventType, TrialEvent } from "../../events.ts";

/** An entry of the lesson: another thing stands as "@" and the name under which it is listed. */
interface LessonEntry {
  readonly type: EventType;
  readonly body: Readonly<Record<string, unknown>>;
}

/** What a first trial is learned with: entries by the part of the work that they belong to. */
export interface Lesson {
  readonly format: "coldproof-lesson";
  readonly version: 1;
  readonly parts: Readonly<Record<string, readonly LessonEntry[]>>;
}

const opened = {
  title: "Practice: harbour van, one can against R134a",
  question:
    "A can called Kestrel is sold as a refill for a van labelled R134a. Does it hold what it says, does it cool as well at the vent within 2 K, and is it safe to own, charge and drive with?",
};

const isNamed = (one: LessonEntry, ...names: readonly string[]): boolean =>
  names.some((name) => one.body["name"] === name);

/**
 * One product's way through the harbour trial, out of its log: the van's own refrigerant goes out, the
 * can called Kestrel goes in and out again, and the van is put back. What is weighed before and after
 * fits together, because the cylinders in between hold what the story left in them.
 *
 * @param events  The log of `harbour()`.
 */
export function harbourLesson(events: readonly TrialEvent[]): Lesson {
  const named = namesById(events);
  const product = (name: string) => events.find((one) => isNamed(one, name))?.id;
  const [heron, kestrel, magpie] = ["Heron", "Kestrel", "Magpie"].map(product);
  const at = (stage: string, round?: string): readonly LessonEntry[] =>
    events
      .filter(({ body }) => "stage" in body && body.stage === stage && body.round === round)
      .map((event) => lessonEntry(event, named));
  const listed = (type: EventType): readonly LessonEntry[] =>
    events.filter((event) => event.type === type).map((event) => lessonEntry(event, named));
  return {
    format: "coldproof-lesson",
    version: 1,
    parts: {
      ...planParts(listed, at("plan")),
      ...proveParts(at("prove")),
      ...roundParts(
        at("recover", heron).map((one) => inRound(one)),
        at("evacuate", kestrel),
        at("charge", kestrel),
      ),
      ...testParts(at("run", kestrel), at("identify", kestrel)),
      ...restoreParts(at("recover", magpie), at("restore")),
    },
  };
}

type Parts = Lesson["parts"];
type Entries = readonly LessonEntry[];

const quantityOf = ({ body }: LessonEntry): unknown => body["quantity"];
const reads = (entries: Entries, ...quantities: readonly string[]): Entries =>
  entries.filter((one) => quantities.includes(String(quantityOf(one))));
const ofType = (entries: Entries, type: EventType): Entries =>
  entries.filter((one) => one.type === type);

/** A logger's file and the runs in it, by its place among the stage's files. */
function outing(entries: Entries, n: number): Entries {
  const trace = ofType(entries, "trace-imported")[n];
  const name = `@${String(trace?.body["fileName"])}`;
  return entries.filter((one) => one === trace || one.body["trace"] === name);
}

function planParts(listed: (type: EventType) => Entries, plan: Entries): Parts {
  const vessels = ["Cylinder R1", "Cylinder X2", "Kestrel, can 1", "Kestrel, can 2, kept sealed"];
  return {
    open: listed("trial-opened").map((one) => ({ ...one, body: { ...one.body, ...opened } })),
    vehicle: listed("vehicle-described"),
    instruments: listed("instrument-listed"),
    product: listed("product-listed").filter((one) => isNamed(one, "Kestrel")),
    vessels: [
      ...listed("vessel-listed").filter((one) => isNamed(one, ...vessels)),
      ...ofType(plan, "vessel-found-empty").filter(({ body }) => body["vessel"] === "@Cylinder X2"),
    ],
  };
}

const proveParts = (prove: Entries): Parts => ({
  "prove-rest": reads(prove, "static-low", "static-high", "metal-temperature"),
  "prove-run": outing(prove, 0),
  "prove-again": outing(prove, 1),
});

function roundParts(recover: Entries, evacuate: Entries, charge: Entries): Parts {
  const [vacuumFirst, ...vacuumLater] = reads(evacuate, "vacuum");
  const [holdFirst, ...holdLater] = ofType(evacuate, "trace-imported");
  const present = (...some: readonly (LessonEntry | undefined)[]): Entries =>
    some.filter((one) => one !== undefined);
  return {
    "recover-move": ofType(recover, "transfer-posted"),
    "recover-end": reads(recover, "low-side", "oil-drained"),
    "evacuate-first": [
      ...present(vacuumFirst),
      ...reads(evacuate, "shop-temperature"),
      ...present(holdFirst),
    ],
    "evacuate-again": [
      ...ofType(evacuate, "note-written"),
      ...reads(evacuate, "pump-time"),
      ...vacuumLater,
      ...holdLater,
    ],
    "evacuate-empty": ofType(evacuate, "vessel-found-empty"),
    "charge-oil": reads(charge, "oil-returned"),
    "charge-can": ofType(charge, "transfer-posted"),
    "charge-empty": [...reads(charge, "can-volume"), ...ofType(charge, "vessel-found-empty")],
  };
}

function testParts(run: Entries, identify: Entries): Parts {
  const byHand = ofType(run, "run-recorded").filter(({ body }) => body["trace"] === undefined);
  const names = byHand.map(({ body }) => `@${String(body["name"])}`);
  const can = reads(identify, "vessel-pressure", "vessel-temperature");
  return {
    "run-morning": outing(run, 0),
    "run-afternoon": outing(run, 1),
    "run-road": [...byHand, ...run.filter(({ body }) => names.includes(String(body["run"])))],
    "run-rest": reads(run, "static-low", "static-high", "metal-temperature"),
    "identify-cold": [...can.slice(0, 2), ...reads(identify, "gross-mass")],
    "identify-warm": can.slice(2),
    "identify-detector": ofType(identify, "sample-tested"),
  };
}

function restoreParts(recover: Entries, restore: Entries): Parts {
  const back = recover.map((one) => inRound(one, "restore"));
  const [, charged] = ofType(restore, "transfer-posted");
  return {
    "restore-recover": [...ofType(back, "transfer-posted"), ...reads(back, "oil-drained")],
    "restore-evacuate": [
      ...reads(restore, "pump-time", "shop-temperature", "vacuum"),
      ...ofType(restore, "trace-imported").filter(({ body }) => body["kind"] === "hold"),
      ...ofType(restore, "vessel-found-empty"),
    ],
    "restore-charge": [...reads(restore, "oil-returned"), ...(charged ? [charged] : [])],
    // The first file of the stage is the hold.
    "restore-run": outing(restore, 1),
    "restore-again": outing(restore, 2),
  };
}

/** The same entry in the lesson's own round, or in Restore, which has none. */
function inRound({ type, body }: LessonEntry, stage?: "restore"): LessonEntry {
  const rest = without(body, "round");
  return { type, body: stage ? { ...rest, stage } : { ...rest, round: "@Kestrel" } };
}

/** What each thing is listed under. */
function namesById(events: readonly TrialEvent[]): ReadonlyMap<string, string> {
  return new Map(
    events.flatMap(({ id, type, body }) => {
      if (type === "trace-imported") return [[id, `@${body.fileName}`] as const];
      return "name" in body ? [[id, `@${body.name}`] as const] : [];
    }),
  );
}

/** An entry without the hour of the story, which the learner's own clock replaces. */
function lessonEntry({ type, body }: TrialEvent, named: ReadonlyMap<string, string>): LessonEntry {
  const text = JSON.stringify(without(body, "when"), (_key, value: unknown) =>
    typeof value === "string" ? (named.get(value) ?? value) : value,
  );
  return { type, body: JSON.parse(text) as LessonEntry["body"] };
}

const without = (body: object, name: string): LessonEntry["body"] =>
  Object.fromEntries(Object.entries(body).filter(([key]) => key !== name));
