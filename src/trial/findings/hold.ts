import { analyseHold, type HoldAnalysis, type HoldRows } from "../../evidence/index.ts";
import { fluid as fluidOf, isFluidId, saturationAtT } from "../../fluids/index.ts";
import { yearlyLoss, type YearlyLoss } from "../../service/index.ts";
import { instrumentUncertainty } from "../instruments.ts";
import type { Series, TraceView } from "../traces/view.ts";
import type { TrialView } from "../view.ts";

/** What a hold trace of the trial means, in sentences and in numbers. */
export interface HoldFinding {
  readonly analysis: HoldAnalysis;
  /** Two to four words. */
  readonly word: string;
  readonly sentence: string;
  /** What to do with it. */
  readonly next: string;
  /** The leak's size in words: its rate where it leaks, else the most that may be hidden. */
  readonly leak: string;
  readonly perYear?: YearlyLoss;
  /** What was taken for granted. */
  readonly assumed: readonly string[];
  readonly caution: string;
}

/** Volume of a system with hoses when nobody wrote it down, m3, and its standard uncertainty as a share. */
const VOLUME = { value: 3e-3, u: 0.3 };
const U_VOLUME = 0.1;
/** 15 % of the reading as a limit (common practice, no source). */
const U_GAUGE = 0.15 / Math.sqrt(3);
const T_SHOP = 293.15;
/** Above a fifth of the local air what is inside begins to hinder what streams in. */
const HIGHEST_SHARE = 0.2;
const FEWEST = 4;
const SMALL = 1e-2;

/**
 * The verdict on a hold trace; undefined when it has no vacuum column or too few usable rows.
 *
 * Temperature: a column of the file, else the shop's latest reading, else 20 °C with a word about it.
 */
export function holdFinding(view: TrialView, trace: TraceView): HoldFinding | undefined {
  const series = trace.series.find(({ quantity }) => quantity === "vacuum");
  const rows = series && usable(series, view.atmosphere.value);
  if (!series || !rows || rows.t.length < FEWEST) return undefined;
  const shop = view.readings.findLast(({ quantity }) => quantity === "shop-temperature");
  const T = logged(trace, rows.t) ?? shop?.value ?? T_SHOP;
  const volume = view.vehicle?.internalVolume;
  const gauge = view.instruments.find(({ id }) => id === series.instrument);
  const middle = rows.p[Math.floor(rows.p.length / 2)] ?? 1;
  const uGauge = gauge
    ? instrumentUncertainty(gauge, middle, view.atmosphere.value) / middle
    : U_GAUGE;
  const analysis = analyseHold(
    { ...rows, T },
    {
      volume: volume ?? VOLUME.value,
      uVolume: volume === undefined ? VOLUME.u : U_VOLUME,
      uGauge: Math.min(0.5, uGauge),
    },
  );
  const perYear = lossOf(view, analysis, typeof T === "number" ? T : (T[0] ?? T_SHOP));
  return {
    analysis,
    ...words[analysis.cause],
    leak: leakWords(analysis, perYear, view.vehicle?.labelRefrigerant),
    ...(perYear && { perYear }),
    assumed: [
      ...(volume === undefined
        ? ["Volume taken as 3 L ± 60 %: write the vehicle's internal volume down."]
        : []),
      ...(typeof T === "number" && !shop
        ? ["Shop taken as 20 °C: read its temperature, a wet system follows it."]
        : []),
      ...(gauge
        ? []
        : ["Gauge taken as good to 15 % of the reading (common practice, no source): name it."]),
    ],
    caution:
      "A hold finds gross leaks and water. It is no leak-rate test: vacuum loads the seals inward by one bar, service outward by five to twenty.",
  };
}

function usable({ t, values }: Series, air: number): { t: number[]; p: number[] } {
  const rows: { t: number[]; p: number[] } = { t: [], p: [] };
  for (let i = 0; i < t.length; i++) {
    const [time = 0, p = 0] = [t[i], values[i]];
    if (p > HIGHEST_SHARE * air) break;
    if (p < 0.1 || time <= (rows.t.at(-1) ?? -Infinity)) continue;
    rows.t.push(time);
    rows.p.push(p);
  }
  return rows;
}

/** Temperatures of a column of the file, when it has one for every row of pressure. */
function logged(trace: TraceView, t: readonly number[]): HoldRows["T"] | undefined {
  const series = trace.series.find(
    ({ quantity }) => quantity === "metal-temperature" || quantity === "shop-temperature",
  );
  if (!series) return undefined;
  const at = new Map(Array.from(series.t, (time, i) => [time, series.values[i] ?? NaN]));
  const T = t.map((time) => at.get(time) ?? NaN);
  return T.some(Number.isNaN) ? undefined : T;
}

function lossOf(
  { vehicle, atmosphere }: TrialView,
  { leak }: HoldAnalysis,
  T: number,
): YearlyLoss | undefined {
  const id = vehicle?.labelRefrigerant;
  if (id === undefined || !isFluidId(id)) return undefined;
  const pure = fluidOf(id);
  const found = saturationAtT(pure, T);
  const air = atmosphere.value;
  if (found.kind === "out-of-range" || found.p <= 1.05 * air) return undefined;
  return yearlyLoss(leak.rate, { p: found.p, air, M: pure.info.M, T });
}

const words: Readonly<
  Record<HoldAnalysis["cause"], Pick<HoldFinding, "word" | "sentence" | "next">>
> = {
  tight: {
    word: "tight as far as seen",
    sentence: "The pressure stands still but for temperature and the gauge's own scatter.",
    next: "Go on to charging; small leaks in service cannot be seen this way.",
  },
  wet: {
    word: "water inside",
    sentence:
      "The pressure climbs toward the vapour pressure of water at this temperature and bends there.",
    next: "Warm the cold spots and go on pumping, or break the vacuum with dry nitrogen and pull again.",
  },
  outgassing: {
    word: "outgassing",
    sentence: "The pressure rises and slows, as gas out of oil, hoses and drier does.",
    next: "Pull again: a second hold should rise about half as much. If it does not, look for a leak.",
  },
  leaking: {
    word: "leaking",
    sentence: "The pressure keeps rising without a bend: air streams in.",
    next: "Find the leak before charging. Check the hoses and the gauge first: they leak most often.",
  },
  undecided: {
    word: "cannot tell yet",
    sentence: "More than one picture fits this trace.",
    next: "Hold longer, and with readings from the first minute on; then pull again and compare: outgassing halves, a leak does not.",
  },
};

/** Two digits; what is small as a power of ten: nobody counts zeros. */
function two(value: number): string {
  if (value >= SMALL || value <= 0) return String(Number(value.toPrecision(2)));
  const [digits = "", power = ""] = value.toExponential(1).split("e-");
  return `${digits} × 10⁻${Array.from(power, (digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(digit)]).join("")}`;
}

function leakWords(
  { cause, leak }: HoldAnalysis,
  perYear: YearlyLoss | undefined,
  fluid: string | undefined,
): string {
  if (cause !== "leaking") {
    return `If it leaks at all, it is less than ${two(leak.to)} Pa m³/s of air (97.5 %).`;
  }
  const rate = `Air streams in at ${two(leak.rate)} Pa m³/s, 95\u00a0%: ${two(leak.from)} to ${two(leak.to)}.`;
  if (!perYear || fluid === undefined) return rate;
  return `${rate} Under its own pressure at rest ${fluid} might leave by ${magnitude(perYear.from)} to ${magnitude(perYear.to)} a year: an order of magnitude, no more.`;
}

/** One digit: more would be a claim. */
function magnitude(kg: number): string {
  const grams = Number((1000 * kg).toPrecision(1));
  return grams >= 1000 ? `${grams / 1000} kg` : `${grams} g`;
}
