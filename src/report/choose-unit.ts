import { isUnit, type Quantity } from "../units/index.ts";
import {
  quantityDimension,
  type ReadingQuantity,
  type ReadingView,
  type RunValue,
  type TraceView,
  type TrialView,
} from "../trial/index.ts";
import { type Shown, shownDifference, shownIn } from "./shown.ts";

/** In which units a reader wants the trial. */
export type UnitSystem = "us" | "si" | "as-typed";

type Pair = readonly [us: string, si: string];

const pressure: Pair = ["psig", "bar(g)"];
const temperature: Pair = ["°F", "°C"];

const unitsOfQuantities: Readonly<Record<ReadingQuantity, Pair>> = {
  "static-low": pressure,
  "static-high": pressure,
  "metal-temperature": temperature,
  "low-side": pressure,
  "high-side": pressure,
  "vent-temperature": temperature,
  "return-air-temperature": temperature,
  "return-air-humidity": ["%", "%"],
  "outside-temperature": temperature,
  "outside-humidity": ["%", "%"],
  "shop-temperature": temperature,
  barometer: ["inHg", "hPa"],
  "vehicle-speed": ["mph", "km/h"],
  "engine-speed": ["rpm", "rpm"],
  vacuum: ["micron", "mbar"],
  "gross-mass": ["lb", "kg"],
  "can-volume": ["mL", "mL"],
  "oil-drained": ["mL", "mL"],
  "oil-returned": ["mL", "mL"],
  "pump-time": ["min", "min"],
  "discharge-temperature": temperature,
  "suction-line-temperature": temperature,
  "liquid-line-temperature": temperature,
  superheat: ["Δ°F", "K"],
  subcooling: ["Δ°F", "K"],
  "clutch-duty": ["%", "%"],
  "vessel-pressure": pressure,
  "vessel-temperature": temperature,
  "boiling-temperature": temperature,
};

/** Things of a trial that are not readings. */
const unitsOfThings = {
  mass: ["lb", "kg"],
  "small-mass": ["oz", "g"],
  pressure,
  "air-pressure": ["inHg", "hPa"],
  "circuit-volume": ["L", "L"],
  "cabin-volume": ["ft3", "m3"],
  length: ["ft", "m"],
  "absolute-pressure": ["psia", "bar"],
  enthalpy: ["Btu/lb", "kJ/kg"],
} as const satisfies Record<string, Pair>;
export type Thing = keyof typeof unitsOfThings;

/** Chooses the unit of everything in one report. */
export interface UnitChoice {
  readonly system: UnitSystem;
  readonly thing: (thing: Thing) => Shown;
  readonly difference: (thing: Thing) => Shown;
  readonly quantity: (quantity: ReadingQuantity, typed?: string) => Shown;
  readonly quantityDifference: (quantity: ReadingQuantity, typed?: string) => Shown;
}

/**
 * "As typed" shows a reading in its own unit; for what was computed from many it takes the unit that was
 * typed or logged most often for such quantities, so that one picture never mixes units.
 */
export function unitChoice(view: TrialView, system: UnitSystem): UnitChoice {
  const air = view.atmosphere.value;
  const usual = system === "as-typed" ? usualUnits(view) : new Map<string, string>();
  const ofPair = ([us, si]: Pair): string => (usFirst(view, system) ? us : si);
  const ofQuantity = (quantity: ReadingQuantity, typed?: string): string =>
    (system === "as-typed" ? (typed ?? usual.get(familyOf(quantity))) : keptMass(typed, system)) ??
    ofPair(unitsOfQuantities[quantity]);
  return {
    system,
    thing: (thing) => shownIn(ofPair(unitsOfThings[thing]), air),
    difference: (thing) => shownDifference(ofPair(unitsOfThings[thing])),
    quantity: (quantity, typed) => shownIn(ofQuantity(quantity, typed), air),
    quantityDifference: (quantity, typed) => shownDifference(ofQuantity(quantity, typed)),
  };
}

/** A can weighed in grams stays in grams beside a cylinder in kilograms, and ounces beside pounds. */
const keptMass = (typed: string | undefined, system: UnitSystem): string | undefined =>
  (system === "us" ? ["lb", "oz"] : ["kg", "g"]).find((unit) => unit === typed);

/** As typed, masses and the like follow the unit of the label charge. */
function usFirst(view: TrialView, system: UnitSystem): boolean {
  if (system !== "as-typed") return system === "us";
  const typed: Quantity | undefined = view.vehicle?.labelChargeTyped;
  return typed !== undefined && ["lb", "oz"].includes(typed.unit) && isUnit(typed.unit, "mass");
}

/** Quantities that people read in one unit: all temperatures, all pressures of the circuit. */
const familyOf = (quantity: ReadingQuantity): string =>
  quantity === "vacuum" || quantity === "barometer" ? quantity : quantityDimension[quantity];

/** The unit typed or logged most often in a family; of equals the first. */
function usualUnits(view: TrialView): ReadonlyMap<string, string> {
  const counts = new Map<string, Map<string, number>>();
  const add = (quantity: ReadingQuantity, unit: string): void => {
    const units = counts.get(familyOf(quantity)) ?? new Map<string, number>();
    counts.set(familyOf(quantity), units.set(unit, (units.get(unit) ?? 0) + 1));
  };
  for (const { quantity, typed } of view.readings) add(quantity, typed.unit);
  for (const trace of view.traces) {
    for (const { quantity, unit } of trace.series) add(quantity, unit);
  }
  const most = (units: ReadonlyMap<string, number>): string =>
    [...units].reduce((best, one) => (one[1] > best[1] ? one : best))[0];
  return new Map([...counts].map(([family, units]) => [family, most(units)]));
}

/** The unit in which a figure of a run was typed or logged. */
export function unitOfRunValue(
  { source, quantity }: RunValue,
  readings: readonly ReadingView[],
  traces: readonly TraceView[],
): string | undefined {
  if (source.kind === "trace") {
    const trace = traces.find(({ id }) => id === source.trace);
    return trace?.series.find((s) => s.column === source.column && s.quantity === quantity)?.unit;
  }
  return readings.find(({ id }) => source.readings.includes(id))?.typed.unit;
}
