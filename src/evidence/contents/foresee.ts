import { expectedInformation, logNormal } from "../../inference/index.ts";
import { identifierCategories, identifierLog, categoryShares, yesProbability } from "./detect.ts";
import { placeAt, pointsOf } from "./compositions.ts";
import type { Evidence } from "./evidence.ts";
import type { Matter } from "./matter.ts";
import type { Posterior } from "./posterior.ts";
import { FILLED, SHARED } from "./score.ts";

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

interface Method {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly minutes: number;
  /** Already done: a second one of the same instrument says little new. */
  readonly done: (evidence: readonly Evidence[]) => boolean;
  /** What it would show at the point where a matter stands: a number with its spread, or the chance of a yes. */
  readonly foresee: (matter: Matter) => Foreseen | undefined;
}

type Foreseen =
  | { readonly kind: "number"; readonly mean: number; readonly sd: number }
  | { readonly kind: "yes"; readonly probability: number }
  | { readonly kind: "shares"; readonly matter: Matter };

const has = (test: (each: Evidence) => boolean) => (evidence: readonly Evidence[]) =>
  evidence.some(test);
const nearTo = (T: number) => has((each) => each.kind === "pressure" && Math.abs(each.T - T) < 8);

/** Two standard uncertainties of the usual shop instruments as one relative figure of pressure (common practice). */
const PRESSURE_U = 0.02;
const FINE_U = 0.004;
const VOLUME_U = 0.02;

function pressureAt(T: number, relative: number) {
  return (matter: Matter): Foreseen | undefined => {
    const p = matter.pressure(T, { vessel: "can" });
    if (p === undefined) return undefined;
    // What the gauge shares with the readings before it cannot tell the families apart again.
    const sd = p * Math.hypot(relative * Math.sqrt(1 - SHARED / 2), matter.modelU, matter.scatterU);
    return { kind: "number", mean: p, sd };
  };
}

const detector = (detects: "combustible" | "halogen"): Method => ({
  id: `${detects}-detector`,
  title: detects === "combustible" ? "Combustible-gas detector" : "Halogen leak detector",
  says:
    detects === "combustible"
      ? "Hold a detector rated for flammable gas at the closed, dry valve outdoors: a trace at the seal is enough. Release nothing for it, and never use a flame."
      : "Hold an electronic halogen detector at the closed valve: a trace at the seal is enough. One with a hot sensor must not be used where the content may burn.",
  minutes: 5,
  done: has((each) => each.kind === "detector" && each.detects === detects),
  foresee: (matter) => ({ kind: "yes", probability: yesProbability(matter.masses(), { detects }) }),
});

const methods: readonly Method[] = [
  {
    id: "weigh-full-can",
    title: "Weigh the full can and measure its volume",
    says: "Weigh it unopened, take off the tare, and measure its volume by the water it displaces. Nothing is opened.",
    minutes: 10,
    done: has((each) => each.kind === "fill" && each.vessel === "can" && each.full),
    foresee: (matter) => {
      const rhoL = matter.liquidDensity(293.15);
      if (rhoL === undefined) return undefined;
      return {
        kind: "number",
        mean: FILLED.mean * rhoL,
        sd: rhoL * Math.hypot(FILLED.sd, VOLUME_U),
      };
    },
  },
  {
    id: "pressure-in-shade",
    title: "Static pressure with the liquid's temperature",
    says: "Let the can stand in the shade for an hour, then read its pressure and the temperature of its wall below the liquid.",
    minutes: 60,
    done: nearTo(293.15),
    foresee: pressureAt(293.15, PRESSURE_U),
  },
  {
    id: "pressure-in-ice",
    title: "Static pressure in ice water",
    says: "Stand the can in ice and water for an hour and read its pressure: the temperature is then known within half a degree.",
    minutes: 60,
    done: nearTo(273.15),
    foresee: pressureAt(273.15, PRESSURE_U),
  },
  {
    id: "pressure-in-warm-water",
    title: "Static pressure in warm water, 40 °C at most",
    says: "Stand the can in water that a hand can bear, never above 40 °C, and read its pressure after half an hour. Never any other heat.",
    minutes: 40,
    done: nearTo(313.15),
    foresee: pressureAt(313.15, PRESSURE_U),
  },
  {
    id: "fine-gauge",
    title: "Static pressure with a gauge good to 0.25 %",
    says: "Borrow a tested gauge and a thermometer good to 0.2 K, and read the can again at rest.",
    minutes: 45,
    done: has((each) => each.kind === "pressure" && each.u < 0.006 * each.p && each.uT <= 0.25),
    foresee: pressureAt(293.15, FINE_U),
  },
  detector("combustible"),
  detector("halogen"),
  {
    id: "identifier",
    title: "Electronic refrigerant identifier",
    says: "Have a sample read by an identifier made for what may be inside. It knows a few refrigerants; of others it shows nonsense without saying so.",
    minutes: 20,
    done: has((each) => each.kind === "identifier"),
    foresee: (matter) => (matter.masses() ? { kind: "shares", matter } : undefined),
  },
];

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
