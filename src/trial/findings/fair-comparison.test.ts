import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { hillTown } from "../demonstration/hill-town.ts";
import { project } from "../project.ts";
import { fairComparisonOf } from "./fair-comparison.ts";

const file = (name: string): string => readFileSync(`data/demonstration/${name}`, "utf8");
const events = hillTown({
  baseline: file("hill-town-baseline-us.csv"),
  productB: file("hill-town-product-b-si.csv"),
  hold: file("hill-town-hold.csv"),
});
const view = project(events);

function compared(of = view) {
  const found = fairComparisonOf(of);
  if (found.kind === "none") throw new Error(found.why);
  return found;
}

test("the invented trial is carried to equal conditions, with what it rests on", () => {
  const found = compared();
  const vent = found.rows.find(
    ({ quantity, condition }) => quantity === "vent" && condition === "parked-idle",
  );
  const { interval, equalConditions, asMeasured } = vent ?? {};
  // The product ran on a warmer day, so equal conditions make it colder than it looked.
  expect(equalConditions?.value).toBeLessThan(asMeasured?.value ?? -Infinity);
  expect(interval?.from).toBeLessThan(equalConditions?.value ?? -Infinity);
  expect(interval?.to).toBeGreaterThan(equalConditions?.value ?? Infinity);
  expect(found.assumptions.join(" ")).toMatch(/return air from a model of the cabin/u);
  expect(found.margin).toMatchObject({ from: "plan", late: false, margins: { vent: 1 } });
  const places = new Set(found.standard.map(({ ambient, driving }) => `${ambient} ${driving}`));
  expect(places.size).toBe(4);
});

test("intervals at standard conditions are no narrower than where the runs were made", () => {
  const found = compared();
  for (const { product, quantity, driving, interval } of found.standard) {
    const condition = driving ? "road-steady" : "parked-idle";
    const seen = found.rows.find(
      (row) => row.product === product && row.quantity === quantity && row.condition === condition,
    );
    if (!seen) throw new Error("a carried effect was measured");
    expect(interval.to - interval.from).toBeGreaterThanOrEqual(
      seen.interval.to - seen.interval.from - 1e-9,
    );
  }
});

test("the same log gives the same finding, in any order", () => {
  expect(fairComparisonOf(project([...events].reverse()))).toEqual(compared());
});

test("a margin that came after the first run is told", () => {
  const opening = events.find(({ type }) => type === "trial-opened");
  if (opening?.type !== "trial-opened") throw new Error("no opening");
  const correction = {
    id: "0197a000-0000-7000-8000-000000000001",
    trial: opening.trial,
    at: "2026-06-20T12:00:00Z",
    device: "office",
    type: "entry-corrected",
    v: 1,
    body: {
      target: opening.id,
      body: { ...opening.body, margin: { value: 3, unit: "K" } },
      reason: "wider",
    },
  } as const;
  const found = compared(project([...events, correction]));
  expect(found.margin).toMatchObject({ late: true, margins: { vent: 3 } });
  expect(found.assumptions.join(" ")).toMatch(/after the first run/u);
});

test("what is missing is named, and work can be stopped", () => {
  expect(fairComparisonOf(project([]))).toMatchObject({ kind: "none" });
  const noProduct = events.filter(
    (event) => event.type !== "run-recorded" || event.body.charged.kind === "fluid",
  );
  const none = fairComparisonOf(project(noProduct));
  expect(none.kind === "none" && none.why).toMatch(/run of a product/u);
  const shares: number[] = [];
  const stopped = fairComparisonOf(project(events), {
    progress: (share) => {
      shares.push(share);
      return shares.length < 5;
    },
  });
  expect(stopped.kind).toBe("none");
  expect(shares).toHaveLength(5);
});
