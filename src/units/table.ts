/** What kind of quantity a unit measures. One dimension has one SI unit, see `siUnit`. */
export type Dimension =
  | "pressure"
  | "pressure-difference"
  | "temperature"
  | "temperature-difference"
  | "mass"
  | "volume"
  | "length"
  | "speed"
  | "rotation"
  | "power"
  | "ratio"
  | "duration"
  | "density"
  | "specific-energy"
  | "specific-entropy";

/** From where a pressure unit counts: vacuum zero, up from the local air, or down from it. */
export type Reference = "absolute" | "gauge" | "vacuum" | undefined;

export interface Unit {
  /** Stored in logs; never changes. */
  readonly id: string;
  /** Shown behind a number and in a list of units; always parses back to this unit. */
  readonly label: string;
  /** Said in full, for lists and screen readers. */
  readonly name: string;
  readonly dimension: Dimension;
  readonly reference: Reference;
  /** SI size of one step of the unit. */
  readonly size: number;
  /** SI value at which the unit reads zero (°C, °F). */
  readonly zero: number;
  /** Decimals of a number whose uncertainty is not known: what a good shop instrument shows. */
  readonly decimals: number;
  /** Other spellings that are understood, lower case without spaces, dots and brackets. */
  readonly spellings: readonly string[];
}

// Exact by definition. International pound and inch (1959), standard gravity 9.80665 m/s2 (3rd CGPM, 1901),
// conventional mercury 13 595.1 kg/m3 (BIPM SI brochure, 8th ed., table 8; NIST SP 811, appendix B).
const POUND = 0.45359237;
const INCH = 0.0254;
const PSI = (POUND * 9.80665) / (INCH * INCH);
const MM_HG = 133.322387415;
const IN_HG = 25.4 * MM_HG;
const FOOT = 12 * INCH;
const ZERO_CELSIUS = 273.15;
const FAHRENHEIT = 5 / 9;

type Row = readonly [
  id: string,
  label: string,
  name: string,
  reference: Reference,
  size: number,
  decimals: number,
  spellings?: readonly string[],
  zero?: number,
];

const pressure: readonly Row[] = [
  ["psig", "psig", "pounds per square inch, gauge", "gauge", PSI, 1, ["psigauge", "psi gauge"]],
  [
    "psia",
    "psia",
    "pounds per square inch, absolute",
    "absolute",
    PSI,
    1,
    ["psiabs", "psiabsolute"],
  ],
  ["bar(g)", "bar(g)", "bar, gauge", "gauge", 1e5, 2, ["bargauge"]],
  ["bar", "bar abs", "bar, absolute", "absolute", 1e5, 2, ["bara", "barabsolute"]],
  ["kPa(g)", "kPa(g)", "kilopascal, gauge", "gauge", 1e3, 0, ["kpagauge"]],
  ["kPa", "kPa abs", "kilopascal, absolute", "absolute", 1e3, 1, ["kpaa", "kpaabsolute"]],
  ["MPa(g)", "MPa(g)", "megapascal, gauge", "gauge", 1e6, 3, ["mpagauge"]],
  ["MPa", "MPa abs", "megapascal, absolute", "absolute", 1e6, 3, ["mpaa", "mpaabsolute"]],
  ["Pa", "Pa", "pascal, absolute", "absolute", 1, 0, ["paabs", "pascal"]],
  ["hPa", "hPa", "hectopascal, absolute", "absolute", 100, 0, []],
  ["mbar", "mbar", "millibar, absolute", "absolute", 100, 2, ["mbara", "millibar"]],
  ["mmHg", "mmHg", "millimetres of mercury, absolute", "absolute", MM_HG, 1, ["mmhgabs", "torr"]],
  ["mmHg(vac)", "mmHg vac", "millimetres of mercury of vacuum", "vacuum", MM_HG, 0, ["mmhgvacuum"]],
  [
    "micron",
    "micron",
    "microns of mercury, absolute",
    "absolute",
    MM_HG / 1e3,
    0,
    ["microns", "µmhg", "umhg"],
  ],
  [
    "inHg(vac)",
    "inHg vac",
    "inches of mercury of vacuum",
    "vacuum",
    IN_HG,
    1,
    ["inhgvacuum", "inhgofvacuum", '"hgvac', '"hgvacuum'],
  ],
  [
    "inHg",
    "inHg abs",
    "inches of mercury, absolute",
    "absolute",
    IN_HG,
    2,
    ["inhgabsolute", '"hg'],
  ],
];

const rows: Readonly<Record<Dimension, readonly Row[]>> = {
  pressure,
  "pressure-difference": [
    ["psi", "psi", "pounds per square inch", undefined, PSI, 1],
    ["bar", "bar", "bar", undefined, 1e5, 2],
    ["kPa", "kPa", "kilopascal", undefined, 1e3, 1],
    ["MPa", "MPa", "megapascal", undefined, 1e6, 3],
    ["Pa", "Pa", "pascal", undefined, 1, 0],
    ["hPa", "hPa", "hectopascal", undefined, 100, 0],
    ["mbar", "mbar", "millibar", undefined, 100, 2],
    ["mmHg", "mmHg", "millimetres of mercury", undefined, MM_HG, 1],
    ["inHg", "inHg", "inches of mercury", undefined, IN_HG, 2],
    ["micron", "micron", "microns of mercury", undefined, MM_HG / 1e3, 0, ["microns"]],
  ],
  temperature: [
    [
      "°C",
      "°C",
      "degrees Celsius",
      undefined,
      1,
      1,
      ["c", "degc", "ºc", "℃", "celsius"],
      ZERO_CELSIUS,
    ],
    [
      "°F",
      "°F",
      "degrees Fahrenheit",
      undefined,
      FAHRENHEIT,
      1,
      ["f", "degf", "ºf", "℉", "fahrenheit"],
      ZERO_CELSIUS - 32 * FAHRENHEIT,
    ],
    ["K", "K", "kelvin", undefined, 1, 1, ["kelvin"]],
  ],
  "temperature-difference": [
    ["K", "K", "kelvin", undefined, 1, 1, ["kelvin", "°c", "c", "degc", "δ°c"]],
    [
      "Δ°F",
      "Δ°F",
      "degrees Fahrenheit of difference",
      undefined,
      FAHRENHEIT,
      1,
      ["°f", "f", "degf", "∆°f"],
    ],
  ],
  mass: [
    ["kg", "kg", "kilograms", undefined, 1, 3],
    ["g", "g", "grams", undefined, 1e-3, 0],
    ["lb", "lb", "pounds", undefined, POUND, 3, ["lbs", "pound", "pounds"]],
    ["oz", "oz", "ounces", undefined, POUND / 16, 1, ["ounce", "ounces"]],
  ],
  volume: [
    ["L", "L", "litres", undefined, 1e-3, 2, ["litre", "liter", "litres", "liters"]],
    ["mL", "mL", "millilitres", undefined, 1e-6, 0, ["cm3", "cm³", "cc"]],
    ["m3", "m³", "cubic metres", undefined, 1, 3, ["m3"]],
    ["ft3", "ft³", "cubic feet", undefined, FOOT ** 3, 2, ["cuft"]],
  ],
  length: [
    ["m", "m", "metres", undefined, 1, 1, ["metre", "meter", "metres", "meters"]],
    ["ft", "ft", "feet", undefined, FOOT, 0, ["foot", "feet"]],
    ["mm", "mm", "millimetres", undefined, 1e-3, 1],
    ["in", "in", "inches", undefined, INCH, 2, ["inch", "inches"]],
  ],
  speed: [
    ["km/h", "km/h", "kilometres per hour", undefined, 1 / 3.6, 1, ["kmh", "kph"]],
    ["mph", "mph", "miles per hour", undefined, (5280 * FOOT) / 3600, 1],
    ["m/s", "m/s", "metres per second", undefined, 1, 2],
  ],
  rotation: [
    ["rpm", "rpm", "revolutions per minute", undefined, 1 / 60, 0, ["rev/min", "r/min"]],
    ["rev/s", "rev/s", "revolutions per second", undefined, 1, 2, ["r/s"]],
  ],
  power: [
    ["W", "W", "watts", undefined, 1, 0, ["watt", "watts"]],
    ["kW", "kW", "kilowatts", undefined, 1e3, 2, ["kilowatt", "kilowatts"]],
    // International Table Btu of 2326 J/kg times one pound, as for the specific energy below.
    ["Btu/h", "Btu/h", "British thermal units per hour", undefined, (2326 * POUND) / 3600, 0],
  ],
  ratio: [
    ["%", "%", "percent", undefined, 0.01, 1, ["percent", "%rh"]],
    ["1", "", "fraction", undefined, 1, 3, ["fraction"]],
  ],
  duration: [
    ["s", "s", "seconds", undefined, 1, 0, ["sec", "second", "seconds"]],
    ["min", "min", "minutes", undefined, 60, 1, ["minute", "minutes"]],
    ["h", "h", "hours", undefined, 3600, 2, ["hr", "hrs", "hour", "hours"]],
  ],
  density: [
    ["kg/m3", "kg/m³", "kilograms per cubic metre", undefined, 1, 2],
    ["g/m3", "g/m³", "grams per cubic metre", undefined, 1e-3, 0],
    ["g/L", "g/L", "grams per litre", undefined, 1, 2],
    ["kg/L", "kg/L", "kilograms per litre", undefined, 1e3, 4],
    ["lb/ft3", "lb/ft³", "pounds per cubic foot", undefined, POUND / FOOT ** 3, 3],
  ],
  "specific-energy": [
    ["J/kg", "J/kg", "joules per kilogram", undefined, 1, 0],
    ["kJ/kg", "kJ/kg", "kilojoules per kilogram", undefined, 1e3, 2],
    // International Table Btu, exactly 2326 J/kg per Btu/lb (ISO 31-4; NIST SP 811 appendix B).
    ["Btu/lb", "Btu/lb", "British thermal units per pound", undefined, 2326, 2],
  ],
  "specific-entropy": [
    ["J/(kg K)", "J/(kg·K)", "joules per kilogram and kelvin", undefined, 1, 1],
    ["kJ/(kg K)", "kJ/(kg·K)", "kilojoules per kilogram and kelvin", undefined, 1e3, 4],
  ],
};

/** The spelling by which a unit is looked up: lower case, without spaces, dots and brackets. */
export const spellingOf = (text: string): string =>
  text
    .toLowerCase()
    .replace(/μ/g, "µ")
    .replace(/³/g, "3")
    .replace(/[\s.()[\]·]/g, "");

function unitFrom(dimension: Dimension, row: Row): Unit {
  const [id, label, name, reference, size, decimals, spellings = [], zero = 0] = row;
  return {
    id,
    label,
    name,
    dimension,
    reference,
    size,
    zero,
    decimals,
    spellings: [...new Set([id, label, ...spellings].map(spellingOf))].filter((s) => s !== ""),
  };
}

const tables = new Map(
  (Object.keys(rows) as Dimension[]).map((dimension) => [
    dimension,
    rows[dimension].map((row) => unitFrom(dimension, row)),
  ]),
);

/** Every dimension that has units. */
export const dimensions: readonly Dimension[] = [...tables.keys()];

/** The units of a dimension, in the order in which a list should offer them. */
export function unitsOf(dimension: Dimension): readonly Unit[] {
  const units = tables.get(dimension);
  if (!units) throw new RangeError(`no dimension "${dimension}"`);
  return units;
}

const byId = new Map<string, Unit>();
for (const units of tables.values()) {
  // An id met in two dimensions ("bar") has one size, so the first (absolute) meaning serves conversion.
  for (const unit of units) if (!byId.has(unit.id)) byId.set(unit.id, unit);
}

/** Is this the id of a unit of that dimension? Takes any text, the outside world's included. */
export const isUnit = (id: string, dimension: Dimension): boolean =>
  unitsOf(dimension).some((unit) => unit.id === id);

/**
 * The unit with this id; an id met in two dimensions gives its absolute meaning.
 * @throws RangeError if there is none.
 */
export function unitById(id: string): Unit {
  const unit = byId.get(id);
  if (!unit) throw new RangeError(`no unit "${id}"`);
  return unit;
}

/** Does any dimension know this unit id? */
export const isUnitId = (id: string): boolean => byId.has(id);

/** The id of the dimension's SI unit: the one with size 1 that counts from zero. */
export function siUnit(dimension: Dimension): string {
  const unit = unitsOf(dimension).find(({ size, zero }) => size === 1 && zero === 0);
  if (!unit) throw new RangeError(`dimension "${dimension}" lacks its SI unit`);
  return unit.id;
}
