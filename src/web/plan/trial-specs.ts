import type { FieldSpec } from "../forms/spec.ts";

const pressureUnits = { us: "inHg", si: "hPa" };

/** The question and the place. */
export const openingSpecs: readonly FieldSpec[] = [
  {
    kind: "text",
    name: "title",
    label: "Name of the trial",
    hint: "As you will find it again: vehicle and product.",
  },
  {
    kind: "text",
    name: "question",
    label: "The question, fixed before the first reading",
    hint: "What must be shown, in which conditions, and within what difference.",
    long: true,
  },
  {
    kind: "quantity",
    name: "margin",
    label: "Smallest vent difference that matters",
    hint: "Fixed now, so that the data cannot choose it.",
    dimensions: ["temperature-difference"],
    unit: { us: "Δ°F", si: "K" },
  },
  { kind: "text", name: "place", label: "Place", optional: true, group: "The air at the place" },
  {
    kind: "quantity",
    name: "altitude",
    label: "Altitude",
    hint: "A gauge counts from the local air: altitude or barometer turns its reading into a true pressure.",
    dimensions: ["length"],
    unit: { us: "ft", si: "m" },
    optional: true,
  },
  {
    kind: "quantity",
    name: "barometer",
    label: "Barometer at the place",
    hint: "Station pressure, not reduced to sea level. It goes before altitude.",
    dimensions: ["pressure"],
    unit: pressureUnits,
    optional: true,
  },
  {
    kind: "text",
    name: "conditions",
    label: "Run conditions and repeats",
    hint: "For instance: parked at idle, blower high, recirculation; then road at 64 km/h. Two of each.",
    long: true,
    optional: true,
    group: "The plan",
  },
];

export const vehicleSpecs: readonly FieldSpec[] = [
  {
    kind: "text",
    name: "name",
    label: "Vehicle",
    hint: "Your own description; no plate number is needed.",
  },
  {
    kind: "fluid",
    name: "labelRefrigerant",
    label: "Refrigerant on the label",
    none: "Choose",
  },
  {
    kind: "quantity",
    name: "labelCharge",
    label: "Charge on the label",
    hint: "“1 lb 6 oz” may be typed as it stands.",
    dimensions: ["mass"],
    unit: { us: "lb", si: "kg" },
  },
  {
    kind: "choice",
    name: "meteringDevice",
    label: "Metering device",
    options: [
      { value: "expansion-valve", label: "Expansion valve" },
      { value: "orifice-tube", label: "Orifice tube" },
      { value: "unknown", label: "Not known" },
    ],
  },
  {
    kind: "choice",
    name: "compressor",
    label: "Compressor",
    options: [
      { value: "fixed-cycling", label: "Fixed, clutch cycles" },
      { value: "fixed-always-on", label: "Fixed, always on" },
      { value: "variable", label: "Variable" },
      { value: "electric", label: "Electric" },
      { value: "unknown", label: "Not known" },
    ],
  },
  {
    kind: "text",
    name: "oil",
    label: "Oil",
    hint: "As the label or the maker names it.",
    optional: true,
  },
  {
    kind: "quantity",
    name: "cabinVolume",
    label: "Cabin volume",
    dimensions: ["volume"],
    unit: { us: "ft3", si: "m3" },
    optional: true,
  },
  {
    kind: "quantity",
    name: "internalVolume",
    label: "Internal volume of the refrigerant circuit",
    hint: "With it the app can say how little charge would show the same static pressure.",
    dimensions: ["volume"],
    unit: { us: "L", si: "L" },
    optional: true,
  },
];

export const productSpecs: readonly FieldSpec[] = [
  { kind: "text", name: "name", label: "Product", hint: "A neutral name such as “Product B”." },
  {
    kind: "text",
    name: "declares",
    label: "What the label declares to be inside",
    long: true,
    optional: true,
  },
  {
    kind: "fluid",
    name: "fluid",
    label: "Declared pure refrigerant",
    hint: "Only if it declares one pure fluid. Pressures at rest are then held against that fluid.",
    none: "None: a blend, or it does not say",
    optional: true,
  },
  {
    kind: "quantity",
    name: "labelMass",
    label: "Net mass on the label",
    dimensions: ["mass"],
    unit: { us: "oz", si: "g" },
    optional: true,
  },
  {
    kind: "lines",
    name: "claims",
    label: "Claims, one a line",
    hint: "Word for word as the label says them.",
    optional: true,
  },
  { kind: "flag", name: "flammableMark", label: "The can carries a flammable mark" },
  { kind: "text", name: "fitting", label: "Fitting", optional: true },
  { kind: "text", name: "price", label: "Price", optional: true },
];
