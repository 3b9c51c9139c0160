import type { Dimension } from "../../units/index.ts";
import type { FieldSpec } from "../forms/spec.ts";
import type { Draft } from "../shell/drafts.ts";

const measuring: Readonly<Record<string, readonly Dimension[]>> = {
  pressure: ["pressure"],
  vacuum: ["pressure"],
  temperature: ["temperature"],
  mass: ["mass"],
  humidity: ["ratio"],
  other: ["speed", "rotation", "volume", "duration", "length"],
};
/** A limit of error is a difference, in units of differences. */
const limits: Readonly<Record<string, readonly Dimension[]>> = {
  ...measuring,
  pressure: ["pressure-difference"],
  vacuum: ["pressure-difference"],
  temperature: ["temperature-difference"],
};
const usual: Readonly<Record<string, { us: string; si: string }>> = {
  pressure: { us: "psig", si: "bar(g)" },
  vacuum: { us: "micron", si: "Pa" },
  temperature: { us: "°F", si: "°C" },
  mass: { us: "g", si: "g" },
  humidity: { us: "%", si: "%" },
  other: { us: "mph", si: "km/h" },
};
const usualLimits: typeof usual = {
  ...usual,
  pressure: { us: "psi", si: "bar" },
  vacuum: { us: "micron", si: "Pa" },
  temperature: { us: "Δ°F", si: "K" },
};

const of = <T>(table: Readonly<Record<string, T>>, draft: Draft): T => {
  const found = table[draft["measures"] ?? "pressure"] ?? table["pressure"];
  if (found === undefined) throw new RangeError("the tables name every kind of instrument");
  return found;
};
const kindIs =
  (...kinds: readonly string[]) =>
  (draft: Draft): boolean =>
    kinds.includes(draft["accuracy.kind"] ?? "");

export const instrumentSpecs: readonly FieldSpec[] = [
  {
    kind: "text",
    name: "name",
    label: "Instrument",
    hint: "As you call it on the bench, for instance “low-side gauge”.",
  },
  {
    kind: "choice",
    name: "measures",
    label: "It measures",
    options: [
      { value: "pressure", label: "Pressure" },
      { value: "vacuum", label: "Vacuum" },
      { value: "temperature", label: "Temperature" },
      { value: "mass", label: "Mass" },
      { value: "humidity", label: "Humidity" },
      { value: "other", label: "Something else" },
    ],
  },
  {
    kind: "choice",
    name: "accuracy.kind",
    label: "How its maker states the accuracy",
    group: "Accuracy",
    options: [
      { value: "percent-of-span", label: "Percent of the span (class 1.6)" },
      {
        value: "percent-of-span-by-quarter",
        label: "Percent of the span, other in the middle half (3-2-3)",
      },
      { value: "limit", label: "A fixed limit (± 5 g)" },
      { value: "percent-of-reading", label: "Percent of the reading" },
      { value: "limit-or-percent", label: "A limit or a percentage, the larger" },
    ],
  },
  {
    kind: "number",
    name: "accuracy.percent",
    label: "Percent",
    suffix: "%",
    shown: kindIs("percent-of-span", "percent-of-reading", "limit-or-percent"),
  },
  {
    kind: "number",
    name: "accuracy.outer",
    label: "Percent in the first and last quarter",
    suffix: "%",
    shown: kindIs("percent-of-span-by-quarter"),
  },
  {
    kind: "number",
    name: "accuracy.middle",
    label: "Percent in the middle half",
    suffix: "%",
    shown: kindIs("percent-of-span-by-quarter"),
  },
  {
    kind: "quantity",
    name: "accuracy.from",
    signed: true,
    label: "Scale starts at",
    dimensions: (draft) => of(measuring, draft),
    unit: (draft) => of(usual, draft),
    shown: kindIs("percent-of-span", "percent-of-span-by-quarter"),
  },
  {
    kind: "quantity",
    name: "accuracy.to",
    label: "Scale ends at",
    dimensions: (draft) => of(measuring, draft),
    unit: (draft) => of(usual, draft),
    shown: kindIs("percent-of-span", "percent-of-span-by-quarter"),
  },
  {
    kind: "quantity",
    name: "accuracy.limit",
    label: "Limit of error, ±",
    dimensions: (draft) => of(limits, draft),
    unit: (draft) => of(usualLimits, draft),
    shown: kindIs("limit", "limit-or-percent"),
  },
  {
    kind: "quantity",
    name: "resolution",
    label: "Smallest step it shows",
    dimensions: (draft) => of(limits, draft),
    unit: (draft) => of(usualLimits, draft),
    optional: true,
  },
];

export interface QuickPick {
  readonly label: string;
  readonly source: string;
  readonly draft: Draft;
}

const picked = (
  name: string,
  measures: string,
  accuracy: Draft,
  resolution: Draft = {},
): Draft => ({
  name,
  measures,
  ...Object.fromEntries(Object.entries(accuracy).map(([key, value]) => [`accuracy.${key}`, value])),
  ...resolution,
});

const span = (percent: string, from: string, to: string, unit: string): Draft => ({
  kind: "percent-of-span",
  percent,
  from,
  "from.unit": unit,
  to,
  "to.unit": unit,
});

/** Common shop instruments, to be checked against the instrument's own plate. */
export const quickPicks: readonly QuickPick[] = [
  {
    label: "Low-side gauge, class 1.6",
    source: "EN 837-1, from memory: 1.6 % of the span",
    draft: picked("Low-side gauge", "pressure", span("1.6", "-1", "10", "bar(g)")),
  },
  {
    label: "High-side gauge, class 1.6",
    source: "EN 837-1, from memory: 1.6 % of the span",
    draft: picked("High-side gauge", "pressure", span("1.6", "0", "35", "bar(g)")),
  },
  {
    label: "Low-side gauge, grade B (3-2-3)",
    source: "ASME B40.100, from memory: 3 % outer quarters, 2 % middle half",
    draft: picked("Low-side gauge", "pressure", {
      kind: "percent-of-span-by-quarter",
      outer: "3",
      middle: "2",
      from: "0",
      "from.unit": "psig",
      to: "120",
      "to.unit": "psig",
    }),
  },
  {
    label: "High-side gauge, grade B (3-2-3)",
    source: "ASME B40.100, from memory: 3 % outer quarters, 2 % middle half",
    draft: picked("High-side gauge", "pressure", {
      kind: "percent-of-span-by-quarter",
      outer: "3",
      middle: "2",
      from: "0",
      "from.unit": "psig",
      to: "500",
      "to.unit": "psig",
    }),
  },
  {
    label: "Thermocouple type K, class 1",
    source: "IEC 60584-1, from memory: 1.5 °C or 0.4 %",
    draft: picked("Thermometer", "temperature", { kind: "limit", limit: "1.5", "limit.unit": "K" }),
  },
  {
    label: "Thermistor vacuum gauge",
    source: "Common practice, no source: 10 % of the reading",
    draft: picked("Vacuum gauge", "vacuum", { kind: "percent-of-reading", percent: "10" }),
  },
  {
    label: "Shop scale, 2 g steps",
    source: "Common practice, no source: ± 5 g",
    draft: picked(
      "Scale",
      "mass",
      { kind: "limit", limit: "5", "limit.unit": "g" },
      { resolution: "2", "resolution.unit": "g" },
    ),
  },
  {
    label: "Hygrometer, ± 3 %",
    source: "Common practice, no source: 2 to 3 % relative humidity",
    draft: picked("Hygrometer", "humidity", { kind: "limit", limit: "3", "limit.unit": "%" }),
  },
];
