import type { PresetView } from "../../calculations/index.ts";
import { COVERAGE_95, type Shown } from "../../report/index.ts";
import type { ChargePart, ReadingName, Readings, Regime, Span } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";

/** The accumulator or receiver, as the vehicle has it. */
export const bufferName = ({ expansion }: PresetView): string =>
  expansion === "orifice" ? "accumulator" : "receiver";

/** What a regime means to a reader. */
export function regimeText(regime: Regime, preset: PresetView): string {
  const buffer = bufferName(preset);
  switch (regime) {
    case "balanced":
      return `The ${buffer} holds some liquid, as it should: a little more or less charge changes little.`;
    case "starved":
      return `The ${buffer} is empty: the system is short of refrigerant in these conditions.`;
    case "flooded":
      return `The ${buffer} is full: there is more refrigerant than the system has room for.`;
    case "gas":
      return "Nothing condenses: the circuit holds gas only.";
  }
}

export const partNames = (preset: PresetView): Readonly<Record<ChargePart, string>> => ({
  condenser: "Condenser",
  liquidLine: "Liquid line",
  evaporator: "Evaporator",
  suctionLine: "Suction line",
  dischargeLine: "Discharge line",
  bufferLiquid: `Liquid in the ${bufferName(preset)}`,
  bufferVapour: `Vapour in the ${bufferName(preset)}`,
});

export const quantityNames: Readonly<Record<ReadingName, string>> = {
  low: "Low side",
  high: "High side",
  vent: "Vent air",
  capacity: "Cooling",
  power: "Power at the compressor",
  cop: "Cooling per power (COP)",
  discharge: "Discharge gas",
  superheat: "Superheat",
  subcooling: "Subcooling",
  duty: "Compressor duty",
};

/** A bare number, such as a ratio of powers. */
const bare = (decimals: number, plus = false): Shown => {
  const text = (value: number): string =>
    `${plus && value > 0 ? "+" : ""}${value.toFixed(decimals).replace("-", "−")}`;
  return {
    unit: "1",
    label: "",
    value: (value) => value,
    text,
    nominal: text,
    pair: ({ value }) => text(value),
  };
};

/** How each quantity is shown, and a difference of it. */
export function shownOf(name: ReadingName, units: VehicleUnits): { of: Shown; change: Shown } {
  switch (name) {
    case "low":
    case "high":
      return { of: units.gauge, change: units.dP };
    case "vent":
    case "discharge":
      return { of: units.T, change: units.dT };
    case "superheat":
    case "subcooling":
      return { of: units.dT, change: units.dT };
    case "capacity":
    case "power":
      return { of: units.power, change: units.dPower };
    case "cop":
      return { of: bare(2), change: bare(2, true) };
    case "duty":
      return { of: units.ratio, change: units.dRatio };
  }
}

/** A difference without its plus: superheat is no change. */
const unsigned = (text: string): string => text.replace(/^\+/, "");

/** Half-width as a standard uncertainty, for the digits that mean something. */
export const uncertaintyOf = ({ from, to }: Span): number => (to - from) / (2 * COVERAGE_95);

/** "1.9 to 2.4 bar(g)". */
export function spanText(shown: Shown, { from, to }: Span): string {
  const u = uncertaintyOf({ from, to });
  const ends = [shown.text(from, u), shown.text(to, u)].map(unsigned);
  const [first = "", last = ""] = ends;
  const bareFirst =
    shown.label !== "" && first.endsWith(shown.label)
      ? first.slice(0, -shown.label.length).trimEnd()
      : first;
  return `${bareFirst} to ${last}`;
}

/** A reading as a gauge shows it: the swing of a cycling clutch, the head while it is engaged. */
export function readingText(
  name: ReadingName,
  readings: Readings,
  units: VehicleUnits,
  u?: number,
) {
  const { of } = shownOf(name, units);
  if (name === "low" && readings.lowRange) return spanText(of, readings.lowRange);
  if (name === "high" && readings.highOn !== undefined) return of.text(readings.highOn, u);
  return unsigned(of.text(readings[name], u));
}
