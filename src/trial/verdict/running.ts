import { type Expectation, expectRunning } from "../expectation/expectation.ts";
import type { TrialView } from "../view.ts";
import { expectedFluid, measure, nothingExpected } from "./context.ts";
import { publishedPressure, publishedVent } from "./published-table.ts";
import type { ReadingInContext, Verdict, VerdictDetail } from "./view.ts";
import { shown, withoutBand } from "./words.ts";

type Expected = Extract<Expectation, { kind: "expected" }>;
interface Limits {
  readonly from: number;
  readonly to: number;
  readonly expected: number;
}

const words = {
  within: "as expected",
  higher: "higher than expected",
  lower: "lower than expected",
  undecided: "name the instrument",
} as const;

/**
 * A running reading against what the model of this vehicle expects in these conditions. Where the model has
 * no say, the published R134a table of other vehicles is all there is, and is marked as such.
 */
export function judgeRunning(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const expected = expectedFluid(view, reading);
  const bare = withoutBand({ value, u });
  if (!expected) return bare(...nothingExpected(view, reading));
  const table =
    reading.quantity === "vent-temperature"
      ? publishedVent(view, reading)
      : publishedPressure(view, reading);
  if (!expected.composition) return table;
  const forecast = expectRunning(view, reading, expected.composition);
  if (forecast.kind === "none")
    return { ...table, details: [noModel(forecast.why), ...table.details] };
  const massUnit = /^(lb|oz)$/.test(view.vehicle?.labelChargeTyped.unit ?? "") ? "oz" : "g";
  const limits = limitsOf(forecast, reading);
  if (!limits) return table;
  return against(
    forecast,
    limits,
    { value, u },
    {
      expected: expected.name,
      named: reading.instrument !== undefined,
      massUnit,
      table,
    },
  );
}

const noModel = (why: string): VerdictDetail => ({
  heading: "No forecast for this vehicle",
  text: why,
  source: "vehicle model",
});

/** The band of the reading's own form: the mean, or one end of a cycling clutch's swing. */
function limitsOf(
  { running, band }: Expected,
  { quantity, form }: ReadingInContext,
): Limits | undefined {
  const of = (limits: { from: number; to: number } | undefined, expected: number | undefined) =>
    limits && expected !== undefined ? { ...limits, expected } : undefined;
  if (quantity === "vent-temperature") return of(band.limits.vent, running.vent);
  if (quantity === "high-side") {
    return running.highOn !== undefined && form !== "lowest"
      ? of(band.limits.highOn, running.highOn)
      : of(band.limits.high, running.high);
  }
  if (form === "steady") return of(band.limits.low, running.low);
  const ends = running.lowRange;
  if (!ends) return of(band.limits.low, running.low);
  // The swing's ends are the switch's settings; they carry the uncertainty of the mean between them.
  const end = form === "lowest" ? ends.from : ends.to;
  const low = of(band.limits.low, running.low);
  return (
    low && { from: end - (running.low - low.from), to: end + (low.to - running.low), expected: end }
  );
}

function against(
  forecast: Expected,
  limits: Limits,
  reading: { readonly value: number; readonly u: number },
  about: {
    readonly expected: string;
    /** Without a named instrument its class could explain any distance. */
    readonly named: boolean;
    readonly massUnit: string;
    readonly table: Verdict;
  },
): Verdict {
  // Model and instrument are independent: their 95 % half-widths add in quadrature.
  const reach = (half: number): number => Math.hypot(half, 2 * reading.u);
  const band = {
    from: limits.expected - reach(limits.expected - limits.from),
    to: limits.expected + reach(limits.to - limits.expected),
    expected: limits.expected,
  };
  const side = reading.value > band.to ? "higher" : reading.value < band.from ? "lower" : "within";
  const kind = side === "within" || about.named ? side : "undecided";
  const { outside } = forecast.known;
  return {
    kind,
    word: words[kind],
    sentence: sentences[kind],
    reading,
    band,
    basis: `Model of this kind of vehicle on ${about.expected}, ${shown(outside.value, outside.unit)} outside, not fitted to this one`,
    details: [assumptions(forecast, about.massUnit), ...fromTable(about.table)],
    sources: ["vehicle model (docs/models/vehicle.md)", ...about.table.sources],
  };
}

const sentences = {
  within: "The reading is what a sound vehicle of this kind should show in these conditions.",
  higher:
    "The reading is higher than a sound vehicle of this kind should show in these conditions. Look for a second sign before naming a fault.",
  undecided:
    "The reading is outside of what the model expects, but no instrument is named: its class may explain it.",
  lower:
    "The reading is lower than a sound vehicle of this kind should show in these conditions. Look for a second sign before naming a fault.",
} as const;

function assumptions({ known, title, charge }: Expected, massUnit: string): VerdictDetail {
  const assumed =
    known.assumed.length === 0 ? "Nothing was assumed." : `Assumed: ${known.assumed.join("; ")}.`;
  return {
    heading: "What the forecast rests on",
    text: `${title}, sized to the label charge, holding ${shown(charge, massUnit)}. ${assumed} The band comes from the plausible ranges of the model's parameters.`,
    source: "vehicle model; parameters are common practice, no source",
  };
}

/** The published table stays in sight as a second, weaker witness. */
const fromTable = (table: Verdict): VerdictDetail[] =>
  table.band === undefined
    ? []
    : [
        {
          heading: "Published R134a table of other vehicles",
          text: `The reading is ${table.word}. ${table.sentence}`,
          source: table.sources.join("; "),
        },
      ];
