import {
  type BodyOf,
  type ClaimKind,
  quantityNames,
  type ReadingForm,
  type ReadingQuantity,
  type RunView,
  type Stage,
  type TraceProblem,
} from "../trial/index.ts";

/*
 * The words for what the log names by keys, so that screens and report say the same. Those for quantities
 * are the trial's own: its requirements use them too.
 */

/** One or two short words, for the margin of a chart. */
export const shortNames: Readonly<Record<ReadingQuantity, string>> = {
  ...quantityNames,
  "static-low": "low",
  "static-high": "high",
  "metal-temperature": "metal",
  "low-side": "low side",
  "high-side": "high side",
  "vent-temperature": "vent",
  "return-air-temperature": "return air",
  "return-air-humidity": "return RH",
  "outside-temperature": "outside",
  "outside-humidity": "outside RH",
  "shop-temperature": "shop",
  barometer: "air",
  "vehicle-speed": "road",
  "engine-speed": "engine",
  vacuum: "vacuum",
};

export const stageNames: Readonly<Record<Stage, string>> = {
  plan: "Plan",
  prove: "Prove",
  recover: "Recover",
  evacuate: "Evacuate",
  charge: "Charge",
  run: "Run",
  identify: "Identify",
  restore: "Restore",
  compare: "Compare",
  hazards: "Hazards",
  claims: "Claims",
  publish: "Publish",
};

/** What a sentence of a label is tested as. */
export const claimKindNames: Readonly<Record<ClaimKind, string>> = {
  "equals-mass": "its mass stands for a mass of another refrigerant",
  "net-mass": "how much is in the can",
  contains: "what is in the can",
  "not-flammable": "it does not burn",
  "no-ozone-depletion": "it does not deplete ozone",
  gwp: "its global warming potential",
  "drop-in": "nothing of the vehicle has to change",
  "lower-head-pressure": "its high-side pressure is lower",
  "colder-air": "its vent air is colder",
  approved: "somebody approved it",
  other: "nothing that can be tested",
};

/** What tested a sample, inside a sentence's beginning. */
export const testerNames: Readonly<Record<BodyOf<"sample-tested">["method"], string>> = {
  identifier: "Identifier",
  "combustible-gas-detector": "Combustible-gas detector",
  "halogen-detector": "Halogen detector",
};

/** What it said: percentages, or whether it responded. */
export const testerAnswer = ({
  parts,
  responded,
}: Pick<BodyOf<"sample-tested">, "parts" | "responded">): string =>
  parts?.map(({ substance, percent }) => `${substance} ${percent} %`).join(", ") ??
  (responded === true ? "responded" : "did not respond");

export const conditionNames: Readonly<Record<RunView["condition"], string>> = {
  "parked-idle": "parked at idle",
  "parked-raised-idle": "parked at raised idle",
  "road-steady": "road at steady speed",
  "road-mixed": "road, mixed speeds",
};

/** The same for a narrow space. */
export const shortConditionNames: Readonly<Record<RunView["condition"], string>> = {
  "parked-idle": "parked, idle",
  "parked-raised-idle": "parked, raised",
  "road-steady": "road, steady",
  "road-mixed": "road, mixed",
};

export const airSourceNames: Readonly<Record<RunView["airSource"], string>> = {
  recirculation: "recirculated air",
  outside: "outside air",
  unknown: "air source not noted",
};

export const meteringNames: Readonly<
  Record<BodyOf<"vehicle-described">["meteringDevice"], string>
> = {
  "orifice-tube": "orifice tube",
  "expansion-valve": "thermostatic expansion valve",
  unknown: "not known",
};

export const compressorNames: Readonly<Record<BodyOf<"vehicle-described">["compressor"], string>> =
  {
    "fixed-cycling": "fixed displacement, cycling clutch",
    "fixed-always-on": "fixed displacement, always on",
    variable: "variable displacement",
    electric: "electric",
    unknown: "not known",
  };

export const problemNames: Readonly<Record<TraceProblem["kind"], string>> = {
  comment: "comment",
  "short-row": "row cut short",
  "long-row": "row too long",
  "bad-time": "time not readable",
  "repeated-row": "row repeated",
  "repeated-time": "time repeated",
  "time-runs-back": "time runs back",
  "gap-in-time": "gap in time",
  "missing-column": "column missing",
  "blank-cell": "blank cell",
  "over-range": "over range",
  "no-value-mark": "marked as no value",
  "not-a-number": "not a number",
  "impossible-value": "value not possible",
  "drop-out": "sensor dropped out",
  "stuck-sensor": "sensor stuck",
};

/** "Low side, lowest of the cycle": the quantity with how it stands in time. */
export const readingName = (quantity: ReadingQuantity, form: ReadingForm): string =>
  form === "steady" ? quantityNames[quantity] : `${quantityNames[quantity]}, ${form} of the cycle`;

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const ISO = /^(\d{4})-(\d\d)-(\d\d)T(\d\d:\d\d)(?::\d\d(?:\.\d+)?)?(Z|[+-]\d\d:\d\d)?$/;

/** "14 Jun 2026"; the text itself when it is no instant. Months by name: no country reads them backwards. */
export function dayText(iso: string): string {
  const [, year, month, day] = ISO.exec(iso) ?? [];
  if (year === undefined) return iso;
  return `${Number(day)} ${MONTHS[Number(month) - 1] ?? ""} ${year}`;
}

/** "08:41", and the offset when the clock is not UTC. */
export function clockText(iso: string): string {
  const [, , , , clock, offset] = ISO.exec(iso) ?? [];
  if (clock === undefined) return iso;
  return offset === undefined || offset === "Z" ? clock : `${clock} ${offset}`;
}

export const momentText = (iso: string): string => `${dayText(iso)}, ${clockText(iso)}`;
