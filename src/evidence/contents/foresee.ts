import { expectedInformation, logNormal } from "../../inference/index.ts";
import { placeAt, pointsOf } from "./compositions.ts";
import { categoryShares, identifierCategories, identifierLog } from "./detect.ts";
import type { Evidence } from "./evidence.ts";
import type { Matter } from "./matter.ts";
import { type Foreseen, type Method, methods } from "./methods.ts";
import type { Posterior } from "./posterior.ts";

/** A measurement that could be taken next. */
export interface NextMeasurement {
  readonly id: string;
  readonly title: string;
  /** How it is done, and what to mind. */
  readonly says: string;
  /** Minutes of work and waiting (common practice, no source). */
  readonly minutes: number;
  /** What it is expected to say about the families, bit. */
  readonly information: number;
  /** Of all that is still open, 0 to 1. */
  readonly share: number;
  /** Bit an hour. */
  readonly perHour: number;
}

/** Points of the posterior that stand for it here, and outcomes that are tried. */
const POINTS = 240;
const OUTCOMES = 80;
/** Families below are left out. */
const LEAST = 0.002;

interface Chosen {
  readonly family: number;
  readonly weight: number;
  readonly put: () => Matter;
}

/** Evenly spread points of the posterior: each family by its probability, at least a few. */
function chosenPoints(posterior: Posterior): { readonly points: Chosen[]; readonly count: number } {
  const likely = posterior.families.filter(({ probability }) => probability >= LEAST);
  const sum = likely.reduce((total, { probability }) => total + probability, 0);
  const points = likely.flatMap((judged, family): Chosen[] => {
    const { weights, at } = pointsOf(judged);
    const share = judged.probability / sum;
    const count = judged.parts.every(({ samples }) => samples.dimensions === 0)
      ? 1
      : Math.max(6, Math.round(POINTS * share));
    return systematic(weights, count).flatMap((k) => {
      const place = at[k];
      if (!place) return [];
      return [
        { family, weight: share / count, put: () => placeAt(judged, place.part, place.point) },
      ];
    });
  });
  return { points, count: likely.length };
}

/** Indices by systematic resampling: `count` of them, each weight by its share. */
function systematic(weights: ArrayLike<number>, count: number): number[] {
  const found: number[] = [];
  let below = 0;
  let at = 0;
  for (let k = 0; k < count; k++) {
    const wanted = (k + 0.5) / count;
    while (at < weights.length - 1 && below + (weights[at] ?? 0) < wanted) {
      below += weights[at] ?? 0;
      at += 1;
    }
    found.push(at);
  }
  return found;
}

/** Normal numbers that fill the bell evenly, in an order that repeats nothing nearby. */
const bell = Array.from({ length: 24 }, (_, k) => {
  const u = ((k + 1) * 0.6180339887) % 1;
  // Logistic approximation to the normal quantile; exact enough to spread outcomes.
  return Math.log(u / (1 - u)) / 1.702;
});

const GOLDEN = 0.6180339887;

/** Mutual information of the families and one method's answer, nat. */
function informationOf(method: Method, points: readonly Chosen[], count: number): number {
  const foreseen = points.map(({ put }) => freeze(method.foresee(put())));
  const known = points.flatMap((point, k) => {
    const here = foreseen[k];
    return here ? [{ ...point, here }] : [];
  });
  const total = known.reduce((sum, { weight }) => sum + weight, 0);
  if (known.length < 2 || total <= 0) return 0;
  const weights = known.map(({ weight }) => weight / total);
  const hypothesis = known.map(({ family }) => family);
  const base = { weights, hypothesis, hypotheses: count };
  const [first] = known;
  if (first?.here.kind === "yes") {
    const yes = known.map(({ here }) => (here.kind === "yes" ? here.probability : 0));
    const chance = yes.reduce((sum, p, k) => sum + p * (weights[k] ?? 0), 0);
    return expectedInformation<boolean>({
      ...base,
      outcomes: [
        { outcome: true, weight: chance },
        { outcome: false, weight: 1 - chance },
      ],
      logDensity: (outcome, k) => Math.log(outcome ? (yes[k] ?? 0) : 1 - (yes[k] ?? 0)),
    });
  }
  const picked = systematic(weights, OUTCOMES);
  if (first?.here.kind === "shares") {
    const shares = known.map(({ here }) => (here.kind === "shares" ? here : undefined));
    const outcomes = picked.map((k, j) => ({
      outcome: jittered(shares[k]?.mean ?? [], j),
      weight: 1 / OUTCOMES,
    }));
    return expectedInformation<number[]>({
      ...base,
      outcomes,
      logDensity: (outcome, k) =>
        identifierLog(shares[k]?.masses, { categories: identifierCategories, shares: outcome }),
    });
  }
  const numbers = known.map(({ here }) => (here.kind === "number" ? here : { mean: 0, sd: 1 }));
  const outcomes = picked.map((k, j) => {
    const { mean, sd } = numbers[k] ?? { mean: 0, sd: 1 };
    return { outcome: mean + sd * (bell[j % bell.length] ?? 0), weight: 1 / OUTCOMES };
  });
  return expectedInformation<number>({
    ...base,
    outcomes,
    logDensity: (outcome, k) => {
      const { mean, sd } = numbers[k] ?? { mean: 0, sd: 1 };
      return logNormal(outcome, mean, sd);
    },
  });
}

type Frozen =
  | Exclude<Foreseen, { kind: "shares" }>
  | {
      readonly kind: "shares";
      readonly mean: number[];
      readonly masses: ReturnType<Matter["masses"]>;
    };

/** A matter moves on: what is needed of its point is kept. */
function freeze(foreseen: Foreseen | undefined): Frozen | undefined {
  if (foreseen?.kind !== "shares") return foreseen;
  const now = foreseen.matter.masses();
  if (!now) return undefined;
  const { shares, unknown } = categoryShares(now, identifierCategories);
  const mean = [...shares].map((each) => each + unknown / identifierCategories.length);
  return {
    kind: "shares",
    mean,
    masses: { fluids: now.fluids, share: Float64Array.from(now.share) },
  };
}

const jittered = (mean: readonly number[], j: number): number[] =>
  mean.map((each, c) => each + 0.02 * (bell[(j * 5 + c * 7) % bell.length] ?? 0) * GOLDEN);

/** Measurements not yet taken, by what they are expected to say for their time; useless ones are left out. */
export function nextMeasurements(
  evidence: readonly Evidence[],
  posterior: Posterior,
): NextMeasurement[] {
  const { points, count } = chosenPoints(posterior);
  const open = posterior.families.reduce(
    (sum, { probability: p }) => (p > 0 ? sum - p * Math.log2(p) : sum),
    0,
  );
  return methods
    .filter(({ done }) => !done(evidence))
    .map((method) => {
      const { id, title, says, minutes } = method;
      const information = informationOf(method, points, count) / Math.LN2;
      const share = open > 0 ? Math.min(1, information / open) : 0;
      return {
        id,
        title,
        says,
        minutes,
        information,
        share,
        perHour: (60 * information) / minutes,
      };
    })
    .filter(({ information }) => information > LEAST_BIT)
    .sort((a, b) => b.perHour - a.perHour || a.minutes - b.minutes);
}

/** Below this a measurement is not worth its walk, bit. */
const LEAST_BIT = 0.005;
