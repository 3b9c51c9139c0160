import { type Evidence, posteriorOf, type PosteriorOptions } from "../../src/evidence/index.ts";
import { weighedRun, withRun } from "../../src/evidence/contents/running/weigh.ts";
import type { Forecast } from "../../src/inference/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { hiddenCan, readingsOf, SHOP } from "./hidden-can.ts";
import { hiddenRun } from "./hidden-run.ts";

/** What a survey of hidden cans in hidden vehicles found, without the runs and with them. */
export interface RunSurvey {
  readonly cans: number;
  readonly without: Told;
  readonly with: Told;
  /** Cans whose probability of the right family rose. */
  readonly better: number;
}

interface Told {
  /** Every family's probability for every can: did it hold that family? */
  readonly forecasts: Forecast[];
  /** Mean ln of the probability of the right family. */
  score: number;
}

/** No probability counts as less: one can must not be the whole of a mean. */
const LEAST = 1e-6;

/**
 * Cans drawn from the prior, read at rest and run in a vehicle that the weighing's model does not know.
 *
 * @param setting `temperatures` read at rest, whether the liquid's density is known, runs on the label refrigerant.
 */
export function surveyRuns(
  count: number,
  seed: number,
  setting: {
    readonly temperatures: 1 | 2;
    readonly density: boolean;
    readonly calibrated: boolean;
  },
  options: PosteriorOptions = { seed: 1, points: 1000, passes: 3 },
): RunSurvey {
  const random = createRandom(seed);
  const survey = {
    cans: 0,
    without: { forecasts: [], score: 0 } as Told,
    with: { forecasts: [], score: 0 } as Told,
    better: 0,
  };
  while (survey.cans < count) {
    const can = hiddenCan(random);
    // What is nobody's fluid has no run.
    if (can.masses.length === 0) continue;
    const cold = 273 + 12 * random();
    const temperatures = [cold, cold + 18 + 8 * random()].slice(0, setting.temperatures);
    const { density } = setting;
    const atRest: Evidence[] = readingsOf(can, temperatures, { density, noise: SHOP, random });
    const run = hiddenRun(can, random, setting);
    if (!run) continue;
    const rest = posteriorOf(atRest, options);
    const both = [rest, withRun(rest, weighedRun(run, rest))] as const;
    const [before, after] = both.map(({ families }, k) => {
      const told = k === 0 ? survey.without : survey.with;
      for (const { family, probability } of families) {
        told.forecasts.push({ probability, happened: family.id === can.family.id });
      }
      const right = families.find(({ family }) => family.id === can.family.id)?.probability ?? 0;
      told.score += Math.log(Math.max(LEAST, right)) / count;
      return right;
    });
    survey.cans += 1;
    survey.better += Number((after ?? 0) > (before ?? 0));
  }
  return survey;
}
