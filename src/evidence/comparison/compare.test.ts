import { describe, expect, test } from "vitest";
import { presetVehicle, pureComposition, runVehicle } from "../../vehicle/index.ts";
import type { Charged, ComparableReading, ComparableRun, ComparisonInput } from "./comparable.ts";
import { compareInEqualConditions } from "./compare.ts";
import { errorSizes, leftOut } from "./errors.ts";
import { planRuns } from "./plan.ts";
import { fairVerdict } from "./verdict.ts";

const vehicle = presetVehicle("midsize-expansion");
const label = pureComposition("R134a");
const u = {
  ambient: 0.3,
  humidity: 0.03,
  speed: 0.5,
  engineSpeed: 0.5,
  returnT: 0.3,
  returnHumidity: 0.03,
  pullDown: 0.1,
};

/** A run that reads what the model says, and a product that shifts it. */
function run(
  charged: Charged,
  ambient: number,
  moment: number,
  shift = { vent: 0, low: 0, high: 0 },
): ComparableRun {
  const conditions = {
    ambient,
    humidity: 0.5,
    pAir: 101_325,
    speed: 0,
    engineSpeed: 12.5,
    blower: 1,
    recirculation: 1,
    returnAir: { kind: "measured", T: ambient - 4, humidity: 0.5 },
    occupants: 1,
  } as const;
  const charge = vehicle.values.labelCharge;
  const state = runVehicle({ vehicle, conditions, fill: { composition: label, charge, air: 0 } });
  if (state.kind !== "running") throw new Error("the model runs");
  const reading = (quantity: "vent" | "low" | "high", value: number, own: number) =>
    ({
      quantity,
      form: "steady",
      value: value + shift[quantity],
      uRepeatability: own,
      uInstrument: 3 * own,
      instrument: quantity,
    }) satisfies ComparableReading;
  const readings = [
    reading("vent", state.vent, 0.1),
    reading("low", state.low, 2e3),
    reading("high", state.highOn ?? state.high, 5e3),
  ];
  return { id: `${moment}`, kind: "idle", charged, moment, conditions, u, charge, readings };
}

const shift = { vent: 4, low: -20e3, high: -250e3 };
const input: ComparisonInput = {
  vehicle,
  known: [],
  label,
  margins: { vent: 1, low: 30e3, high: 100e3 },
  runs: [
    run("before", 300, 0),
    run("before", 304, 1),
    run({ product: "B" }, 308, 2, shift),
    run({ product: "C" }, 296, 3),
    run("after", 301, 4),
  ],
};

function rowsOf(asked: ComparisonInput, seed = 1) {
  const found = compareInEqualConditions(asked, { seed });
  if (found.kind === "none") throw new Error(found.reason);
  return found;
}

describe("products in equal conditions", () => {
  const found = rowsOf(input);
  const row = (product: string, quantity: string) => {
    const one = found.rows.find((each) => each.product === product && each.quantity === quantity);
    if (!one) throw new Error("no such row");
    return one;
  };

  test("the weather is taken out and the product's effect is left", () => {
    const warm = row("B", "vent");
    expect(warm.asMeasured.value).toBeGreaterThan(shift.vent + 1);
    expect(warm.equalConditions.value).toBeCloseTo(shift.vent, 0);
    expect(warm.verdict).toBe("warmer");
    expect(row("B", "high").equalConditions.value / shift.high).toBeCloseTo(1, 0);
    expect(row("B", "high").verdict).toBe("lower");
    expect(Math.abs(row("C", "vent").equalConditions.value)).toBeLessThan(0.5);
  });

  test("one value's parts are no larger than the whole", () => {
    for (const { equalConditions, discrepancy, drift, interval } of found.rows) {
      expect(discrepancy).toBeLessThanOrEqual(equalConditions.u);
      expect(drift).toBeLessThanOrEqual(equalConditions.u);
      expect(interval.from).toBeLessThan(interval.to);
    }
  });

  test("what the product is never enters: its readings move its effect one to one", () => {
    const moved = input.runs.map((each) =>
      each.id !== "2"
        ? each
        : { ...each, readings: each.readings.map((r) => ({ ...r, value: r.value + 0.5 })) },
    );
    const again = rowsOf({ ...input, runs: moved });
    again.rows.forEach(({ product, equalConditions, quantity }, i) => {
      const before = found.rows[i]?.equalConditions.value ?? NaN;
      const by = product === "B" ? 0.5 : 0;
      expect(equalConditions.value - before).toBeCloseTo(by, quantity === "vent" ? 9 : 3);
    });
  });

  test("drift that shows widens the answer", () => {
    const drifted = input.runs.map((each) =>
      each.charged !== "after"
        ? each
        : {
            ...each,
            readings: each.readings.map((r) =>
              r.quantity === "vent" ? { ...r, value: r.value + 4 } : r,
            ),
          },
    );
    const wide = rowsOf({ ...input, runs: drifted });
    expect(wide.drift.find(({ quantity }) => quantity === "vent")?.drift.value).toBeGreaterThan(2);
    const vent = wide.rows.find(({ product, quantity }) => product === "B" && quantity === "vent");
    expect(vent?.equalConditions.u).toBeGreaterThan(1.5 * row("B", "vent").equalConditions.u);
  });

  test("seeds change little and the same seed nothing", () => {
    expect(rowsOf(input).rows).toEqual(found.rows);
    const other = rowsOf(input, 9).rows[0];
    expect(other?.equalConditions.u).toBeGreaterThan(
      0.75 * (found.rows[0]?.equalConditions.u ?? 0),
    );
    expect(other?.equalConditions.u).toBeLessThan(1.33 * (found.rows[0]?.equalConditions.u ?? 0));
  });

  test("reasons are given where nothing can be said", () => {
    const only = (keep: (run: ComparableRun) => boolean) =>
      compareInEqualConditions({ ...input, runs: input.runs.filter(keep) });
    expect(only(({ charged }) => typeof charged !== "string")).toMatchObject({
      reason: "no-baseline",
    });
    expect(only(({ charged }) => typeof charged === "string")).toMatchObject({
      reason: "no-product",
    });
  });
});

test("what the model leaves out: more of a starved system, not of a flooded one, nothing of a low side that is held", () => {
  const state = runVehicle({
    vehicle,
    conditions: run("before", 303, 0).conditions,
    fill: { composition: label, charge: vehicle.values.labelCharge, air: 0 },
  });
  if (state.kind !== "running") throw new Error(state.kind);
  const of = (quantity: "vent" | "low", by: Partial<typeof state>) =>
    leftOut(quantity, { ...state, duty: 1, ...by });
  const { vent, low } = errorSizes;
  expect(of("vent", { regime: "balanced" })).toBe(vent.discrepancy);
  expect(of("vent", { regime: "flooded" })).toBe(vent.discrepancy);
  expect(of("vent", { regime: "starved" })).toBe(vent.discrepancyStarved);
  expect(of("vent", { regime: "gas" })).toBe(vent.discrepancyStarved);
  expect(of("low", { regime: "flooded" })).toBe(low.discrepancy);
  expect(of("low", { duty: 0.9 })).toBe(0);
});

test("verdicts: inside the margin, beyond it, across its end", () => {
  expect(fairVerdict("vent", { from: -0.4, to: 0.9 }, 1)).toBe("equivalent");
  expect(fairVerdict("vent", { from: 1.1, to: 3 }, 1)).toBe("warmer");
  expect(fairVerdict("vent", { from: -3, to: -1.1 }, 1)).toBe("colder");
  expect(fairVerdict("high", { from: -3, to: -1.1 }, 1)).toBe("lower");
  expect(fairVerdict("low", { from: 1.1, to: 2 }, 1)).toBe("higher");
  expect(fairVerdict("vent", { from: 0.5, to: 1.5 }, 1)).toBe("undecided");
});

test("more runs find less, down to what they share", () => {
  const conditions = input.runs[0]?.conditions;
  if (!conditions) throw new Error("there is a run");
  const instruments = {
    vent: { uInstrument: 0.3, uRepeatability: 0.1 },
    low: { uInstrument: 10e3, uRepeatability: 2e3 },
    high: { uInstrument: 30e3, uRepeatability: 5e3 },
  };
  const plan = planRuns({
    vehicle,
    known: [],
    label,
    products: 1,
    conditions: [{ kind: "idle", conditions }],
    apart: 4,
    instruments,
    u,
    returnAirRead: true,
  });
  if (plan.kind === "none") throw new Error(plan.reason);
  expect(plan.rows).toHaveLength(3);
  for (const { smallestDetectable, floor } of plan.rows) {
    expect([...smallestDetectable].sort((a, b) => b - a)).toEqual(smallestDetectable);
    expect(smallestDetectable.at(-1)).toBeGreaterThanOrEqual(floor);
  }
});
