import { conditionedOn, type Gaussian, type Mixture, separation } from "../../inference/index.ts";
import type { Conditions, VehicleCase } from "../../vehicle/index.ts";
import { type Evidence, uncertaintyToCome } from "./evidence.ts";
import type { FaultName } from "./hypotheses.ts";
import { type BranchMoments, momentsPair } from "./moments.ts";
import type { Knowledge } from "./nuisances.ts";
import type { Posterior, Weighted } from "./posterior.ts";
import { type Reader, showsDuty } from "./predict.ts";
import { type FaultQuantity, faultQuantities, innerWidth, outer, placeOf } from "./quantities.ts";

/** Where a further reading is taken: in this run, at rest, or in another run. */
export const nextPlaces = ["here", "at-rest", "raised-idle", "idle", "road", "warmer-day"] as const;
export type NextPlace = (typeof nextPlaces)[number];

/** A reading not taken yet, and how well it would tell the two leading hypotheses apart. */
export interface NextReading {
  readonly quantity: FaultQuantity;
  readonly where: NextPlace;
  /** Expected information on which of the two holds, bit: 1 at most. */
  readonly information: number;
  /** Time that it takes, minutes (common practice, no source). */
  readonly minutes: number;
  /** What each of the two would show, SI. */
  readonly expected: readonly {
    readonly fault: FaultName;
    readonly mean: number;
    readonly sd: number;
  }[];
}

/** Minutes for a reading in the run that is going on, and for another run. */
const minutesHere: Readonly<Record<FaultQuantity, number>> = {
  vent: 1,
  duty: 2,
  low: 5,
  high: 5,
  liquidLine: 3,
  subcooling: 3,
  superheat: 4,
  discharge: 4,
  static: 120,
};
const minutesThere = { "raised-idle": 8, idle: 10, road: 40, "warmer-day": 240 } as const;
type Elsewhere = keyof typeof minutesThere;

/** Less information than this is none, bit. */
const leastInformation = 0.02;
/** Weights below this move nothing. */
const leastWeight = 1e-3;
/** Readings with at least this share of the best one's information are ordered by their time. */
const goodShare = 0.5;

interface Asked {
  readonly healthy: VehicleCase;
  readonly reader: Reader;
  readonly known: Knowledge;
  readonly branches: readonly BranchMoments[];
  readonly posterior: Posterior;
  readonly evidence: Evidence;
}

/**
 * Readings that would separate the two leading hypotheses, by the model's own predictions for each. Those worth at
 * least half of the best come first, the cheapest at the top; the others follow by information. Nothing that
 * releases refrigerant or defeats a switch is among them.
 */
export function nextReadings(asked: Asked, two: readonly [FaultName, FaultName]): NextReading[] {
  const found = [...readingsHere(asked, two), ...readingsElsewhere(asked, two)].filter(
    ({ information }) => information >= leastInformation,
  );
  const best = found.reduce((most, { information }) => Math.max(most, information), 0);
  const good = ({ information }: NextReading): boolean => information >= goodShare * best;
  return [
    ...found.filter(good).sort((a, b) => a.minutes - b.minutes || b.information - a.information),
    ...found.filter((one) => !good(one)).sort((a, b) => b.information - a.information),
  ];
}

function readingsHere(asked: Asked, two: readonly [FaultName, FaultName]): NextReading[] {
  const { posterior, evidence } = asked;
  const taken = new Set(evidence.picks.map((pick) => faultQuantities[pick]));
  // Each of a pair is the other one with the same gauge's reading.
  if (taken.has("liquidLine") || taken.has("high")) taken.add("subcooling");
  if (taken.has("subcooling")) taken.add("liquidLine");
  if (!showsDuty(asked.healthy)) taken.add("duty");
  const open = faultQuantities.filter((quantity) => !taken.has(quantity));
  const mixtures = two.map((fault) => afterReading(pointsOf(posterior, fault), evidence));
  return open.map((quantity) => {
    const where = quantity === "static" ? "at-rest" : "here";
    const minutes = minutesHere[quantity];
    return rated(asked, two, { quantity, where, minutes, mixtures, place: placeOf(quantity) });
  });
}

/** Weights of a hypothesis's severities that matter, with sum 1. */
function pointsOf({ points }: Posterior, fault: FaultName): readonly Weighted[] {
  const own = points.filter((point) => point.fault === fault);
  const total = own.reduce((sum, { weight }) => sum + weight, 0);
  const heavy = own.filter(({ weight }) => weight > leastWeight * total);
  const kept = heavy.reduce((sum, { weight }) => sum + weight, 0);
  return heavy.map((point) => ({ ...point, weight: point.weight / kept }));
}

interface Conditioned {
  readonly weight: number;
  readonly gaussian: Gaussian;
}

const afterReading = (points: readonly Weighted[], { picks, y, noise }: Evidence): Conditioned[] =>
  points.map(({ weight, expected }) => ({
    weight,
    gaussian: conditionedOn(expected, picks, y, noise),
  }));

function rated(
  { posterior, healthy, reader }: Asked,
  two: readonly [FaultName, FaultName],
  candidate: {
    readonly quantity: FaultQuantity;
    readonly where: NextPlace;
    readonly minutes: number;
    readonly mixtures: readonly (readonly Conditioned[])[];
    readonly place: number;
  },
): NextReading {
  const { quantity, where, minutes, mixtures, place } = candidate;
  const u = uncertaintyToCome(quantity, healthy, reader);
  const typical = mixtures[0]?.[0]?.gaussian.mean[place] ?? 0;
  const width = innerWidth(quantity, outer(quantity, typical), u);
  const [a = [], b = []] = mixtures.map((parts) => mixtureAt(parts, place, width));
  const [pa, pb] = [posterior.probability[two[0]], posterior.probability[two[1]]];
  return {
    quantity,
    where,
    minutes,
    information: separation(a, b, pa / (pa + pb)),
    expected: [momentOf(two[0], quantity, a), momentOf(two[1], quantity, b)],
  };
}

const mixtureAt = (parts: readonly Conditioned[], place: number, u: number): Mixture =>
  parts.map(({ weight, gaussian: { mean, covariance } }) => ({
    weight,
    mean: mean[place] ?? 0,
    sd: Math.sqrt(Math.max(0, covariance[place * mean.length + place] ?? 0) + u ** 2),
  }));

function momentOf(fault: FaultName, quantity: FaultQuantity, mixture: Mixture) {
  const mean = mixture.reduce((sum, part) => sum + part.weight * part.mean, 0);
  const variance = mixture.reduce(
    (sum, part) => sum + part.weight * (part.sd ** 2 + (part.mean - mean) ** 2),
    0,
  );
  const value = outer(quantity, mean);
  const sd = Math.sqrt(variance);
  return { fault, mean: value, sd: quantity === "high" ? value * sd : sd };
}

/** Gauges and vent are at hand in any run: the one that tells most stands for it. */
const atHand = ["low", "high", "vent"] as const;
/** Severities at which another run is solved: the model is asked again for each. */
const severitiesElsewhere = 4;

function readingsElsewhere(asked: Asked, two: readonly [FaultName, FaultName]): NextReading[] {
  const { healthy, posterior } = asked;
  const places = elsewhere(healthy.conditions);
  return places.flatMap(({ where, conditions }) => {
    const mixtures = two.map((fault) =>
      thinned(pointsOf(posterior, fault)).flatMap((point) => jointAt(asked, point, conditions)),
    );
    if (mixtures.some((mixture) => mixture.length === 0)) return [];
    const minutes = minutesThere[where];
    const all = atHand.map((quantity) => {
      const place = faultQuantities.length + placeOf(quantity);
      return rated(asked, two, { quantity, where, minutes, mixtures, place });
    });
    const best = all.reduce((most, one) => (one.information > most.information ? one : most));
    return [best];
  });
}

/** The heaviest severities, their weights raised to sum 1. */
function thinned(points: readonly Weighted[]): readonly Weighted[] {
  const heavy = [...points].sort((a, b) => b.weight - a.weight).slice(0, severitiesElsewhere);
  const total = heavy.reduce((sum, { weight }) => sum + weight, 0);
  return heavy.map((point) => ({ ...point, weight: point.weight / total }));
}

function jointAt(
  { reader, known, branches, evidence }: Asked,
  point: Weighted,
  conditions: Conditions,
): Conditioned[] {
  const branch = branches[point.branch]?.branch;
  if (!branch) return [];
  const joint = momentsPair(branch.apply(point.severity), conditions, reader, known);
  if (!joint) return [];
  const { picks, y, noise } = evidence;
  return [{ weight: point.weight, gaussian: conditionedOn(joint, picks, y, noise) }];
}

/** Other runs that are worth a thought from where the vehicle is, rev/s, m/s and K (choices). */
function elsewhere(
  here: Conditions,
): readonly { readonly where: Elsewhere; readonly conditions: Conditions }[] {
  const cabin = (share: number): Conditions["returnAir"] => ({ kind: "pull-down", share });
  const parked = { ...here, speed: 0, returnAir: cabin(0.45) };
  const warmer = { ...here, ambient: here.ambient + 8 };
  const runs: readonly (readonly [boolean, Elsewhere, Conditions])[] = [
    [here.speed < 1 && here.engineSpeed < 20, "raised-idle", { ...here, engineSpeed: 25 }],
    [here.speed >= 1 || here.engineSpeed >= 20, "idle", { ...parked, engineSpeed: 12 }],
    [here.speed < 10, "road", { ...here, speed: 20, engineSpeed: 30, returnAir: cabin(0.9) }],
    [here.ambient < 303, "warmer-day", { ...warmer, returnAir: warmerCabin(here) }],
  ];
  return runs.filter(([fits]) => fits).map(([, where, conditions]) => ({ where, conditions }));
}

function warmerCabin({ returnAir, speed }: Conditions): Conditions["returnAir"] {
  return returnAir.kind === "measured"
    ? { kind: "pull-down", share: speed > 1 ? 0.9 : 0.45 }
    : returnAir;
}
