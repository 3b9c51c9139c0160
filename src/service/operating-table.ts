import { COVERAGE } from "./accuracy.ts";
import { operatingData, operatingSource } from "./operating-data.ts";

/** A range in SI. */
export interface Range {
  readonly from: number;
  readonly to: number;
}

export type BandVerdict = "within" | "higher" | "lower";

/** A running reading against a published table, or why the table has no say. */
export type TableVerdict =
  | {
      readonly kind: "judged";
      readonly verdict: BandVerdict;
      /** The table's own range at these conditions. */
      readonly published: Range;
      /** The table's range widened by twice the standard uncertainty of reading and conditions. */
      readonly band: Range;
      /** Distance from the nearer edge of the published range, signed; zero inside. */
      readonly difference: number;
      /** Standard uncertainty of that distance. */
      readonly u: number;
      readonly source: string;
    }
  | {
      readonly kind: "undecided";
      readonly reason: "other-fluid" | "outside-table" | "cycling-clutch";
      /** For `outside-table`: the quantity and its range in the table, SI. */
      readonly limits: (Range & { readonly quantity: string; readonly value: number }) | undefined;
    };

const ZERO_CELSIUS = 273.15;
const KILO = 1000;

const undecided = (reason: "other-fluid" | "cycling-clutch"): TableVerdict => ({
  kind: "undecided",
  reason,
  limits: undefined,
});

const outsideTable = (quantity: string, value: number, { from, to }: Range): TableVerdict => ({
  kind: "undecided",
  reason: "outside-table",
  limits: { quantity, value, from, to },
});

/** Interval of the axis that holds the value and the place in it; the ends belong to it. */
function place(
  axis: readonly number[],
  value: number,
): { i: number; fraction: number } | undefined {
  for (let i = 0; i + 1 < axis.length; i++) {
    const from = axis[i] ?? NaN;
    const to = axis[i + 1] ?? NaN;
    if (value >= from && value <= to) return { i, fraction: (value - from) / (to - from) };
  }
  return undefined;
}

const at = (column: readonly number[], { i, fraction }: { i: number; fraction: number }): number =>
  (column[i] ?? NaN) * (1 - fraction) + (column[i + 1] ?? NaN) * fraction;

/** Slope of the middle of the range along the axis: what an error of the condition is worth. */
function slope(
  axis: readonly number[],
  range: { from: readonly number[]; to: readonly number[] },
  i: number,
): number {
  const middle = (j: number) => ((range.from[j] ?? NaN) + (range.to[j] ?? NaN)) / 2;
  return (middle(i + 1) - middle(i)) / ((axis[i + 1] ?? NaN) - (axis[i] ?? NaN));
}

function judged(value: number, published: Range, u: number, source: string): TableVerdict {
  const band = { from: published.from - COVERAGE * u, to: published.to + COVERAGE * u };
  const difference = Math.max(0, value - published.to) - Math.max(0, published.from - value);
  const verdict = value > band.to ? "higher" : value < band.from ? "lower" : "within";
  return {
    kind: "judged",
    verdict,
    published,
    band,
    difference,
    u,
    source: operatingSource(source),
  };
}

export type RunningPressure =
  | { readonly form: "steady"; readonly p: number }
  /** A cycling clutch: only the ends of its swing mean something, a single number in between misleads. */
  | { readonly form: "cycling" };

/**
 * A low- or high-side pressure against the published R134a table of one maker's vehicle.
 *
 * The table is a comparison with another vehicle, not a limit for this one. Its pressures are steady: a cycling
 * clutch leaves it undecided, see `cyclingSwitchPosition` for what its ends can be held against.
 *
 * @param side     Which of the two columns.
 * @param fluid    Fluid id in the system; the table speaks for R134a only.
 * @param ambient  Air in front of the condenser, K, with its standard uncertainty; the table holds 25 to 40 °C.
 * @param pressure Gauge pressure, Pa, with its standard uncertainty `u`.
 * @throws RangeError if a number is not finite: the caller's bug.
 * Source: data/facts/operating-r134a.json, which names the manual and its conditions.
 */
export function operatingPressure(reading: {
  readonly side: "low" | "high";
  readonly fluid: string;
  readonly ambient: { readonly T: number; readonly u: number };
  readonly pressure: RunningPressure & { readonly u: number };
}): TableVerdict {
  const { pressures } = operatingData;
  const { ambient, pressure } = reading;
  if (reading.fluid !== pressures.fluid) return undecided("other-fluid");
  if (pressure.form === "cycling") return undecided("cycling-clutch");
  if (!Number.isFinite(pressure.p) || !Number.isFinite(ambient.T))
    throw new RangeError("not finite");
  const axis = pressures.ambient.values.map((t) => t + ZERO_CELSIUS);
  const found = place(axis, ambient.T);
  if (!found) {
    return outsideTable("ambient", ambient.T, { from: axis[0] ?? NaN, to: axis.at(-1) ?? NaN });
  }
  const column = pressures[reading.side];
  const published = { from: KILO * at(column.from, found), to: KILO * at(column.to, found) };
  const u = Math.hypot(pressure.u, KILO * slope(axis, column, found.i) * ambient.u);
  return judged(pressure.p, published, u, pressures.source);
}

/**
 * A centre-vent temperature against the published R134a table of one maker's vehicle.
 *
 * @param inlet            Recirculated air at the intake, K, with its standard uncertainty; 20 to 30 °C.
 * @param relativeHumidity Of that air, fraction; 0.5 to 0.7. On the line between two bands both count.
 * @param vent             K, with its standard uncertainty.
 */
export function ventTemperature(reading: {
  readonly fluid: string;
  readonly inlet: { readonly T: number; readonly u: number };
  readonly relativeHumidity: number;
  readonly vent: { readonly T: number; readonly u: number };
}): TableVerdict {
  const { vent } = operatingData;
  if (reading.fluid !== vent.fluid) return undecided("other-fluid");
  const axis = vent.inlet.values.map((t) => t + ZERO_CELSIUS);
  const found = place(axis, reading.inlet.T);
  if (!found) {
    return outsideTable("inlet", reading.inlet.T, { from: axis[0] ?? NaN, to: axis.at(-1) ?? NaN });
  }
  const rh = 100 * reading.relativeHumidity;
  // A fraction and a percentage meet at the line only to rounding.
  const bands = vent.bands.filter(
    ({ humidity }) => rh >= humidity.from - 1e-9 && rh <= humidity.to + 1e-9,
  );
  const first = bands[0];
  if (!first)
    return outsideTable("relative humidity", reading.relativeHumidity, { from: 0.5, to: 0.7 });
  const published = {
    from: ZERO_CELSIUS + Math.min(...bands.map((band) => at(band.from, found))),
    to: ZERO_CELSIUS + Math.max(...bands.map((band) => at(band.to, found))),
  };
  const u = Math.hypot(reading.vent.u, slope(axis, first, found.i) * reading.inlet.u);
  return judged(reading.vent.T, published, u, vent.source);
}

export type SettingPosition = "among" | "below" | "above";

export interface SwitchComparison {
  readonly end: "lowest" | "highest";
  /** Where the reading lies against all published settings of that end, within twice its uncertainty. */
  readonly position: SettingPosition;
  /** From the lowest to the highest published setting, gauge Pa. */
  readonly published: Range;
  readonly sources: readonly string[];
}

/**
 * The ends of a cycling low side against published settings of pressure cycling switches: information, no verdict.
 *
 * @param end Lowest: where the switch opens. Highest: where it closes. Gauge Pa, with its standard uncertainty.
 */
export function cyclingSwitchPosition(
  end: "lowest" | "highest",
  p: number,
  u: number,
): SwitchComparison {
  const { settings } = operatingData.cyclingSwitch;
  const ranges = settings.map(({ open, close }) => (end === "lowest" ? open : close));
  const published = {
    from: KILO * Math.min(...ranges.map(({ from }) => from)),
    to: KILO * Math.max(...ranges.map(({ to }) => to)),
  };
  const position =
    p < published.from - COVERAGE * u
      ? "below"
      : p > published.to + COVERAGE * u
        ? "above"
        : "among";
  const sources = settings.map(({ source }) => operatingSource(source));
  return { end, position, published, sources };
}

/** In which conditions the published table was measured; shown beside every comparison with it. */
export const operatingConditions: readonly string[] = operatingData.conditions;
export const operatingCaution: string = operatingData.caution;
