import { compareInEqualConditions, type EqualConditions } from "../../src/evidence/index.ts";
import { coverageOf, rankStatistics } from "../../src/inference/index.ts";
import { type HiddenTrial, hiddenTrial } from "./hidden-trials.ts";

/** Errors and ranks of one kind of run and quantity over hidden trials. */
export interface Tally {
  readonly ranks: number[];
  readonly errors: number[];
  readonly rawErrors: number[];
  readonly us: number[];
}

/** Errors and hits of one quantity in one standard condition, by how far their intervals reach. */
export interface StandardTally {
  readonly errors: number[];
  readonly us: number[];
  readonly inside: boolean[];
}

export interface Survey {
  readonly tallies: ReadonlyMap<string, Tally>;
  readonly standard: ReadonlyMap<string, StandardTally>;
  readonly effective: readonly number[];
  /** Trials whose hidden vehicle stopped, and those that the comparison gave no answer for. */
  readonly redrawn: number;
  readonly unanswered: number;
  readonly seconds: number;
}

/** Compares hidden trials and holds the answers against the truths. */
export function surveyComparisons(
  count: number,
  from: number,
  oddities = 1,
  draws?: number,
): Survey {
  const tallies = new Map<string, Tally>();
  const standard = new Map<string, StandardTally>();
  const effective: number[] = [];
  let [redrawn, unanswered, done] = [0, 0, 0];
  const began = performance.now();
  for (let seed = from; done < count; seed++) {
    const trial = hiddenTrial(seed, oddities);
    if (!trial) {
      redrawn++;
      continue;
    }
    done++;
    const found = compareInEqualConditions(trial.input, draws === undefined ? {} : { draws });
    if (found.kind === "none") {
      unanswered++;
      continue;
    }
    effective.push(found.effectiveDraws);
    tallyStandard(standard, trial, found);
    for (const { kind, quantity, effect } of trial.effects) {
      const place = found.rows.findIndex((one) => one.kind === kind && one.quantity === quantity);
      const row = found.rows[place];
      const below = found.below[place];
      if (!row || !below) continue;
      const key = `${quantity} ${kind}`;
      const tally = tallies.get(key) ?? emptyTally();
      tallies.set(key, tally);
      tally.ranks.push(below(effect));
      tally.errors.push(row.equalConditions.value - effect);
      tally.rawErrors.push(row.asMeasured.value - effect);
      tally.us.push(row.equalConditions.u);
    }
  }
  return {
    tallies,
    standard,
    effective,
    redrawn,
    unanswered,
    seconds: (performance.now() - began) / 1000,
  };
}

function tallyStandard(
  tallies: Map<string, StandardTally>,
  trial: HiddenTrial,
  found: EqualConditions,
): void {
  for (const { quantity, ambient, driving, effect } of trial.standard) {
    const row = found.standard.find(
      (one) => one.quantity === quantity && one.ambient === ambient && one.driving === driving,
    );
    if (!row) continue;
    const key = `${quantity} ${(ambient - 273.15).toFixed(0)} °C ${driving ? "road" : "idle"}`;
    const tally = tallies.get(key) ?? emptyStandard();
    tallies.set(key, tally);
    tally.errors.push(row.effect.value - effect);
    tally.us.push(row.effect.u);
    tally.inside.push(row.interval.from <= effect && effect <= row.interval.to);
  }
}

/** One survey of several. */
export function mergedSurvey(parts: readonly Survey[]): Survey {
  const tallies = new Map<string, Tally>();
  const standard = new Map<string, StandardTally>();
  for (const part of parts) {
    for (const [key, more] of part.tallies) {
      const { ranks, errors, rawErrors, us } = tallies.get(key) ?? emptyTally();
      tallies.set(key, {
        ranks: [...ranks, ...more.ranks],
        errors: [...errors, ...more.errors],
        rawErrors: [...rawErrors, ...more.rawErrors],
        us: [...us, ...more.us],
      });
    }
    for (const [key, more] of part.standard) {
      const { errors, us, inside } = standard.get(key) ?? emptyStandard();
      standard.set(key, {
        errors: [...errors, ...more.errors],
        us: [...us, ...more.us],
        inside: [...inside, ...more.inside],
      });
    }
  }
  const sum = (of: (part: Survey) => number): number =>
    parts.reduce((total, part) => total + of(part), 0);
  return {
    ...{ tallies, standard, effective: parts.flatMap(({ effective }) => effective) },
    redrawn: sum(({ redrawn }) => redrawn),
    unanswered: sum(({ unanswered }) => unanswered),
    seconds: sum(({ seconds }) => seconds),
  };
}

const emptyTally = (): Tally => ({ ranks: [], errors: [], rawErrors: [], us: [] });
const emptyStandard = (): StandardTally => ({ errors: [], us: [], inside: [] });

export const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/** Lines for a person: coverage, ranks and errors of each kind and quantity. */
export function surveyText(survey: Survey): string {
  const { tallies, standard, effective, redrawn, unanswered, seconds } = survey;
  const lines = [...tallies].map(([key, { ranks, errors, rawErrors, us }]) => {
    const { chiSquare, pValue } = rankStatistics(ranks);
    return `${key}: 95 % holds ${(100 * coverageOf(ranks, 0.95)).toFixed(1)} %, 50 % holds ${(100 * coverageOf(ranks, 0.5)).toFixed(1)} %, chi-square ${chiSquare.toFixed(1)} of 19 (p ${pValue.toFixed(3)}), rms ${rms(errors).toPrecision(3)} against raw ${rms(rawErrors).toPrecision(3)}, u ${rms(us).toPrecision(3)}, mean ${(errors.reduce((a, b) => a + b, 0) / errors.length).toPrecision(2)}`;
  });
  const carried = [...standard].map(([key, { errors, us, inside }]) => {
    const share = inside.filter(Boolean).length / inside.length;
    return `${key}: 95 % holds ${(100 * share).toFixed(1)} % of ${inside.length}, rms ${rms(errors).toPrecision(3)}, u ${rms(us).toPrecision(3)}`;
  });
  const least = [...effective].sort((a, b) => a - b);
  const at = (share: number): string => (least[Math.floor(share * least.length)] ?? 0).toFixed(0);
  return [
    ...lines,
    ...carried,
    `effective draws: ${at(0)} at least, ${at(0.05)} in 95 %, ${at(0.5)} in half of the trials`,
    `redrawn ${redrawn}, unanswered ${unanswered}, ${seconds.toFixed(0)} s`,
  ].join("\n");
}
