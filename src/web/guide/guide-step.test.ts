import { expect, test } from "vitest";
import {
  freshMemory,
  project as fold,
  type StoredEvent,
  type TrialView,
} from "../../trial/index.ts";
import { eventsOfPart } from "./enter-part.ts";
import { guideStep, guideSteps } from "./guide-step.ts";
import { lessonPart } from "./lesson.ts";
import { lookedItem } from "./step.ts";
import { linesOf } from "./lines.ts";

const trial = "019a0000-0000-7000-8000-000000000000";
// The logger's files are read once for all tests.
const memory = freshMemory();
const project = (events: readonly StoredEvent[]): TrialView => fold(events, memory);
let count = 0;
/** Ids and times of their own, one second after another. */
const make = (type: StoredEvent["type"], body: unknown): StoredEvent => {
  const n = ++count;
  return {
    id: `019a0000-0000-7000-8000-${n.toString(16).padStart(12, "0")}`,
    trial,
    at: new Date(Date.UTC(2026, 8, 1) + n * 1000).toISOString(),
    device: "test",
    type,
    v: 1,
    body,
  };
};
const begun = (): StoredEvent[] => lessonPart("open").map(({ type, body }) => make(type, body));

/** What a learner's hand adds for a step that only asks to look or to confirm. */
const confirmed = (id: string, stage: string): StoredEvent =>
  make("item-confirmed", {
    stage,
    item: id.endsWith("-look") ? lookedItem : id,
    confirmed: true,
  });

const stepAt = (events: readonly StoredEvent[]): [TrialView, ReturnType<typeof guideStep>] => {
  const view = project(events);
  return [view, guideStep(view)];
};

test("each card's own entries lead to the next card, to the end", () => {
  const events = begun();
  for (const [number, { id, stage }] of guideSteps.entries()) {
    const [view, standing] = stepAt(events);
    expect(standing).toMatchObject({ number, step: { id } });
    const made = eventsOfPart(id, view, make);
    events.push(...(made.length > 0 ? made : [confirmed(id, stage)]));
  }
  const [view, standing] = stepAt(events);
  expect(standing).toMatchObject({ number: guideSteps.length, last: { id: "answer-read" } });
  expect(standing.step).toBeUndefined();
  expect(view.refused).toEqual([]);
  expect(view.stages.filter(({ status }) => status !== "done")).toEqual([]);
  expect(view.opened?.demonstration).toBe(true);
});

test("the lesson's masses close but for the can that holds less than it says", () => {
  const events = begun();
  for (const { id } of guideSteps) events.push(...eventsOfPart(id, project(events), make));
  const { ledger } = project(events);
  const open = ledger.closures.filter(({ grade }) => grade === "does-not-close");
  const names = open.map(({ account }) => ledger.accounts.find(({ id }) => id === account)?.name);
  expect(names).toEqual(["Kestrel, can 1"]);
});

test("what was never listed, or under another name, is listed before it is used", () => {
  const events = begun();
  const view = project(events);
  const made = eventsOfPart("recover-move", view, make);
  expect(made.map(({ type }) => type)).toEqual([
    "instrument-listed",
    "vessel-listed",
    "product-listed",
    "transfer-posted",
  ]);
  expect(project([...events, ...made]).refused).toEqual([]);
});

test("a product by another name has the lesson's round", () => {
  const product = make("product-listed", { name: "Can of mine", claims: [], flammableMark: true });
  const view = project([...begun(), product]);
  const reading = eventsOfPart("charge-oil", view, make).at(-1);
  expect(reading?.body).toMatchObject({ round: product.id });
});

test("each card with entries says what to type, in plain words", () => {
  for (const { id } of guideSteps) {
    const text = lessonPart(id)
      .flatMap(linesOf)
      .map(({ label, value }) => `${label}: ${value}`)
      .join("\n");
    expect(text).not.toMatch(/@|undefined|NaN|\[object/);
    if (lessonPart(id).length > 0) expect(text, id).not.toBe("");
  }
});
