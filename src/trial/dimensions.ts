import {
  type Dimension,
  isUnit,
  isUnitId,
  type Quantity,
  toSI,
  unitById,
  unitsOf,
} from "../units/index.ts";
import type { BodyOf, EventType, ReadingQuantity } from "./events.ts";
import type { Issue } from "./view.ts";

/** What each reading measures. */
export const quantityDimension: Readonly<Record<ReadingQuantity, Dimension>> = {
  "static-low": "pressure",
  "static-high": "pressure",
  "metal-temperature": "temperature",
  "low-side": "pressure",
  "high-side": "pressure",
  "vent-temperature": "temperature",
  "return-air-temperature": "temperature",
  "return-air-humidity": "ratio",
  "outside-temperature": "temperature",
  "outside-humidity": "ratio",
  "shop-temperature": "temperature",
  barometer: "pressure",
  "vehicle-speed": "speed",
  "engine-speed": "rotation",
  vacuum: "pressure",
  "gross-mass": "mass",
  "can-volume": "volume",
  "oil-drained": "volume",
  "oil-returned": "volume",
  "pump-time": "duration",
  "discharge-temperature": "temperature",
  "suction-line-temperature": "temperature",
  "liquid-line-temperature": "temperature",
  superheat: "temperature-difference",
  subcooling: "temperature-difference",
  "clutch-duty": "ratio",
  "vessel-pressure": "pressure",
  "vessel-temperature": "temperature",
  "boiling-temperature": "temperature",
};

type Sign =
  "any" | "positive" | "not-negative" | "barometer" | "altitude" | { readonly above: Quantity };
interface Check {
  readonly field: string;
  readonly quantity: Quantity | undefined;
  readonly dimensions: readonly Dimension[];
  readonly sign: Sign;
}

/** Far beyond anything on a workshop floor; keeps sums finite. */
const largest = 1e12;
/** Air pressure for range checks only: gauge readings down to a little under full vacuum pass. */
const seaLevel = 101_325;

const check = (
  field: string,
  quantity: Quantity | undefined,
  dimensions: Dimension | readonly Dimension[],
  sign: Sign = "any",
): Check => ({
  field,
  quantity,
  dimensions: typeof dimensions === "string" ? [dimensions] : dimensions,
  sign,
});

/** Every quantity in a body of each type with the dimension it must have. */
const checks: Readonly<{ [K in EventType]?: (b: BodyOf<K>) => Check[] }> = {
  "trial-opened": (b) => [
    check("altitude", b.altitude, "length", "altitude"),
    check("barometer", b.barometer, "pressure", "barometer"),
    check("margin", b.margin, "temperature-difference", "positive"),
  ],
  "vehicle-described": (b) => [
    check("labelCharge", b.labelCharge, "mass", "positive"),
    check("cabinVolume", b.cabinVolume, "volume", "positive"),
    check("internalVolume", b.internalVolume, "volume", "positive"),
  ],
  "instrument-listed": instrumentChecks,
  "product-listed": (b) => [check("labelMass", b.labelMass, "mass", "positive")],
  "vessel-listed": (b) => [
    check("tare", b.tare, "mass", "not-negative"),
    check("waterCapacity", b.waterCapacity, ["mass", "volume"], "positive"),
    check("ratedPressure", b.ratedPressure, "pressure", "positive"),
    check("holds.mass", b.holds?.mass, "mass", "not-negative"),
  ],
  "claim-read": (b) => [
    check("mass", b.mass, "mass", "positive"),
    check("equals", b.equals, "mass", "positive"),
  ],
  "reading-taken": (b) => [
    check(
      "value",
      b.value,
      quantityDimension[b.quantity],
      b.quantity === "barometer" ? "barometer" : "any",
    ),
  ],
  "transfer-posted": transferChecks,
  "stream-opened": (b) =>
    b.columns.map((column, i) =>
      check(
        `columns.${i}.unit`,
        { value: 1, unit: column.unit },
        quantityDimension[column.quantity],
      ),
    ),
  "trace-imported": (b) => [
    ...b.mapping.columns.map((column, i) =>
      check(
        `mapping.columns.${i}.unit`,
        { value: 1, unit: column.unit },
        quantityDimension[column.quantity],
      ),
    ),
    check(
      "mapping.time.unit",
      b.mapping.time.unit === undefined ? undefined : { value: 1, unit: b.mapping.time.unit },
      "duration",
    ),
  ],
};

const checksOf = <T extends EventType>(type: T, body: BodyOf<T>): Check[] =>
  checks[type]?.(body) ?? [];

const measured: Readonly<
  Record<BodyOf<"instrument-listed">["measures"], readonly [Dimension, ...Dimension[]] | undefined>
> = {
  pressure: ["pressure", "pressure-difference"],
  vacuum: ["pressure", "pressure-difference"],
  temperature: ["temperature", "temperature-difference"],
  mass: ["mass"],
  humidity: ["ratio"],
  // Speed, rotation, volume and time have no class of their own in the list.
  other: ["speed", "rotation", "volume", "duration", "length", "ratio"],
};

function instrumentChecks(body: BodyOf<"instrument-listed">): Check[] {
  const dimensions = measured[body.measures] ?? [];
  const checks = [check("resolution", body.resolution, dimensions, "positive")];
  const { accuracy } = body;
  if ("limit" in accuracy) {
    checks.push(check("accuracy.limit", accuracy.limit, dimensions, "positive"));
  }
  if ("from" in accuracy) {
    checks.push(check("accuracy.from", accuracy.from, dimensions));
    checks.push(check("accuracy.to", accuracy.to, dimensions, { above: accuracy.from }));
  }
  return checks;
}

function transferChecks(body: BodyOf<"transfer-posted">): Check[] {
  const checks: Check[] = [];
  for (const side of ["sourceWeighing", "destinationWeighing"] as const) {
    checks.push(check(`${side}.before`, body[side]?.before, "mass"));
    checks.push(check(`${side}.after`, body[side]?.after, "mass"));
  }
  for (const part of ["stated", "purged"] as const) {
    checks.push(check(`${part}.mass`, body[part]?.mass, "mass", "not-negative"));
    checks.push(check(`${part}.limit`, body[part]?.limit, "mass", "positive"));
  }
  return checks;
}

const accepted = (dimensions: readonly Dimension[]): string => {
  const ids = dimensions.flatMap((dimension) => unitsOf(dimension).map(({ id }) => id));
  return `a unit out of: ${[...new Set(ids)].join(", ")}`;
};

const isAbove = (quantity: Quantity, from: Quantity): boolean =>
  isUnitId(from.unit) && toSI(quantity, seaLevel) > toSI(from, seaLevel);

const isBarometric = (quantity: Quantity): boolean => {
  if (unitById(quantity.unit).reference !== "absolute") return false;
  const p = toSI(quantity);
  return p >= 50e3 && p <= 110e3;
};

/** Stated limits and resolutions are steps, so their zero does not matter; the rest must be possible. */
function rangeIssue({ field, quantity, dimensions, sign }: Check): Issue[] {
  if (!quantity) return [];
  if (!dimensions.some((dimension) => isUnit(quantity.unit, dimension))) {
    return [{ field: `${field}.unit`, value: quantity.unit, accepted: accepted(dimensions) }];
  }
  const issue = (words: string): Issue[] => [
    { field: `${field}.value`, value: quantity.value, accepted: words },
  ];
  if (typeof sign === "object" && !isAbove(quantity, sign.above)) {
    return issue(`more than the scale's beginning, ${sign.above.value} ${sign.above.unit}`);
  }
  if (sign === "barometer" && !isBarometric(quantity)) {
    return issue("an absolute pressure from 50 to 110 kPa: station pressure, not gauge");
  }
  if (sign === "altitude" && !(toSI(quantity) >= -500 && toSI(quantity) <= 9000)) {
    return issue("an altitude from −500 to 9000 m");
  }
  if (sign === "positive" && !(quantity.value > 0)) return issue("more than zero");
  if (sign === "not-negative" && quantity.value < 0) return issue("zero or more");
  if (Math.abs(quantity.value) > largest) return issue("a number a workshop could meet");
  const value = toSI(quantity, seaLevel);
  if (Math.abs(value) > largest) return issue("a number a workshop could meet");
  const dimension = dimensions[0];
  if (dimension === "temperature" && dimensions.length === 1 && value < 0) {
    return issue("a temperature at or above absolute zero");
  }
  // At low altitude the barometer can stand 5 % above the standard, so a full vacuum reads deeper.
  if (dimension === "pressure" && dimensions.length === 1 && value < -0.08 * seaLevel) {
    return issue("a pressure that is not below full vacuum");
  }
  if (dimension === "ratio" && field === "value" && (value < 0 || value > 1)) {
    return issue("a relative humidity from 0 to 100 %");
  }
  return [];
}

/** Objections to the units and ranges of a body whose form is already sound. */
export const quantityIssues = <T extends EventType>(type: T, body: BodyOf<T>): readonly Issue[] =>
  checksOf(type, body).flatMap(rangeIssue);
