import { conditionedOn, type Gaussian, type Mixture, separation } from "../../inference/index.ts";
import { type Evidence, uncertaintyToCome } from "./evidence.ts";
import { elsewhere, type Elsewhere, systemAt } from "./elsewhere.ts";
import type { FaultName } from "./hypotheses.ts";
import { type BranchMoments, momentsAt, type System, withFault } from "./moments.ts";
import type { Knowledge } from "./nuisances.ts";
import type { Posterior, Weighted } from "./posterior.ts";
import { showsDuty } from "./predict.ts";
import {
  type FaultQuantity,
  faultQuantities,
  innerWidth,
  outer,
  placeOf,
  quantityAt,
} from "./quantities.ts";

/** Where a further reading is taken: in a run that was read, at rest, or in another run. */
export const nextPlaces = ["here", "at-rest", "raised-idle", "idle", "road", "warmer-day"] as const;
export type NextPlace = (typeof nextPlaces)[number];

/** A reading not taken yet, and how well it would tell the two leading hypotheses apart. */
export interface NextReading {
  readonly quantity: FaultQuantity;
  readonly where: NextPlace;
  /** Of a reading in a run that was read: place of that run among the runs. */
  readonly run?: number;
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
const minutesThere: Readonly<Record<Elsewhere, number>> = {
  "raised-idle": 8,
  idle: 10,
  road: 40,
  "warmer-day": 240,
};

/** Less information than this is none, bit. */
const leastInformation = 0.02;
/** A model's odds between the two count to here: a reading that could show it wrong is worth taking. */
const surest = 0.9;
/** Weights below this move nothing. */
const leastWeight = 1e-3;
/** Readings with at least this share of the best one's information are ordered by their time. */
const goodShare = 0.5;

interface Asked {
  readonly systems: readonly System[];
  readonly known: Knowledge;
  readonly branches: readonly BranchMoments[];
  readonly posterior: Posterior;
  readonly evidence: Evidence;
}

/**
 * Readings that would separate the two leading hypotheses, by the model's own predictions for each, given what all
 * runs tell. Those worth at least half of the best come first, the cheapest at the top; the others follow by
 * information. Nothing that releases refrigerant or defeats a switch is among them.
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
  const { posterior, evidence, systems } = asked;
  const mixtures = two.map((fault) => afterReading(pointsOf(posterior, fault), evidence));
  const rate = (quantity: FaultQuantity, run: number): NextReading => ({
    ...rated(asked, two, {
      quantity,
      where: quantity === "static" ? "at-rest" : "here",
      minutes: minutesHere[quantity],
      mixtures,
      place: placeOf(quantity, run),
      system: systemAt(systems, run),
    }),
    ...(quantity !== "static" && { run }),
  });
  return faultQuantities.flatMap((quantity) => {
    const open = systems
      .map((_, run) => run)
      .filter((run) => !isTaken(quantity, run, asked))
      .map((run) => rate(quantity, run));
    return open.length > 0 ? [mostTelling(open)] : [];
  });
}

/** Whether a reading would say what is known already. */
function isTaken(quantity: FaultQuantity, run: number, { evidence, systems }: Asked): boolean {
  const read = evidence.picks.map(quantityAt);
  const has = (...names: readonly FaultQuantity[]): boolean =>
    read.some((one) => one.run === run && names.includes(one.quantity));
  switch (quantity) {
    case "static":
      return read.some((one) => one.quantity === "static");
    // Each of this pair is the other one with the same gauge's reading.
    case "subcooling":
      return has("subcooling", "liquidLine", "high");
    case "liquidLine":
      return has("subcooling", "liquidLine");
    case "duty":
      return has("duty") || !showsDuty(systemAt(systems, run).faulty.request);
    case "low":
    case "high":
    case "vent":
    case "superheat":
    case "discharge":
      return has(quantity);
  }
}

const mostTelling = (all: readonly NextReading[]): NextReading =>
  all.reduce((most, one) => (one.information > most.information ? one : most));

/** Weights of a hypothesis's severities that matter, with sum 1. */
function pointsOf({ points }: Posterior, fault: FaultName): readonly Weighted[] {
  const own = points.filter((point) => point.fault === fault);
  const total = own.reduce((sum, { weight }) => sum + weight, 0);
  // Far from all readings the weights vanish: then each counts alike.
  if (total === 0) return own.map((point) => ({ ...point, weight: 1 / own.length }));
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
  { posterior }: Asked,
  two: readonly [FaultName, FaultName],
  candidate: {
    readonly quantity: FaultQuantity;
    readonly where: NextPlace;
    readonly minutes: number;
    readonly mixtures: readonly (readonly Conditioned[])[];
    readonly place: number;
    readonly system: System;
  },
): NextReading {
  const { quantity, where, minutes, mixtures, place, system } = candidate;
  const u = uncertaintyToCome(quantity, system);
  const typical = mixtures[0]?.[0]?.gaussian.mean[place] ?? 0;
  const width = innerWidth(quantity, outer(quantity, typical), u);
  const [a = [], b = []] = mixtures.map((parts) => mixtureAt(parts, place, width));
  const [pa, pb] = [posterior.probability[two[0]], posterior.probability[two[1]]];
  return {
    quantity,
    where,
    minutes,
    information: separation(a, b, Math.min(surest, Math.max(1 - surest, pa / (pa + pb)))),
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
  const { systems, posterior } = asked;
  return elsewhere(systems).flatMap(({ where, system }) => {
    const mixtures = two.map((fault) =>
      thinned(pointsOf(posterior, fault)).flatMap((point) => jointAt(asked, point, system)),
    );
    if (mixtures.some((mixture) => mixture.length === 0)) return [];
    const minutes = minutesThere[where];
    const all = atHand.map((quantity) => {
      const place = placeOf(quantity, systems.length);
      return rated(asked, two, { quantity, where, minutes, mixtures, place, system });
    });
    return [mostTelling(all)];
  });
}

/** The heaviest severities, their weights raised to sum 1. */
function thinned(points: readonly Weighted[]): readonly Weighted[] {
  const heavy = [...points].sort((a, b) => b.weight - a.weight).slice(0, severitiesElsewhere);
  const total = heavy.reduce((sum, { weight }) => sum + weight, 0);
  return heavy.map((point) => ({ ...point, weight: point.weight / total }));
}

function jointAt(
  { systems, known, branches, evidence }: Asked,
  point: Weighted,
  there: System,
): Conditioned[] {
  const branch = branches[point.branch]?.branch;
  if (!branch) return [];
  const all = withFault([...systems, there], branch, point.severity);
  const joint = momentsAt(all, known, undefined);
  if (!joint) return [];
  const { picks, y, noise } = evidence;
  return [{ weight: point.weight, gaussian: conditionedOn(joint, picks, y, noise) }];
}
