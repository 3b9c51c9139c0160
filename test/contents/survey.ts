import { type Evidence, posteriorOf, type PosteriorOptions } from "../../src/evidence/index.ts";
import type { Forecast } from "../../src/inference/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { hiddenCan, readingsOf, SHOP } from "./hidden-can.ts";

/** What a survey of hidden cans found. */
export interface Survey {
  /** Every family's probability for every can: did it hold that family? */
  readonly forecasts: readonly Forecast[];
  /** Cans whose family leads, of all and of those that physics can separate. */
  readonly right: number;
  readonly cans: number;
  readonly separable: number;
  readonly rightOfSeparable: number;
  readonly missed: readonly string[];
}

/**
 * A can can be separated if no other family comes nearer to its true, noise-free readings than this many standard
 * uncertainties (square root of the sum of squares of the standardised residuals at the other family's best point).
 */
export const SEPARABLE = 4;

const FULL: PosteriorOptions = { seed: 1, points: 1000, passes: 3 };

/** Distance of the nearest other family from noise-free readings: physics only, no prior and no noise. */
function distanceOfNearest(
  exact: readonly Evidence[],
  family: string,
  options: PosteriorOptions,
): number {
  const others = posteriorOf(exact, options).families.filter(
    (each) => each.family.id !== family && each.family.kind !== "none",
  );
  return Math.sqrt(Math.min(...others.map(({ misfit }) => misfit)));
}

/** Static pressure at two temperatures, with the liquid's density or without, of cans drawn from the prior. */
export function surveyCans(
  count: number,
  seed: number,
  density: boolean,
  options: PosteriorOptions = FULL,
): Survey {
  const random = createRandom(seed);
  const forecasts: Forecast[] = [];
  const missed: string[] = [];
  let [right, separable, rightOfSeparable] = [0, 0, 0];
  for (let k = 0; k < count; k++) {
    const can = hiddenCan(random);
    const cold = 273 + 12 * random();
    const temperatures = [cold, cold + 18 + 8 * random()];
    const setting = { density, noise: SHOP };
    const noisy = readingsOf(can, temperatures, { ...setting, random });
    const { families } = posteriorOf(noisy, options);
    for (const { family, probability } of families) {
      forecasts.push({ probability, happened: family.id === can.family.id });
    }
    const leads = families[0]?.family.id === can.family.id;
    right += Number(leads);
    const exact = readingsOf(can, temperatures, setting);
    if (can.family.kind === "none" || distanceOfNearest(exact, can.family.id, options) < SEPARABLE)
      continue;
    separable += 1;
    rightOfSeparable += Number(leads);
    if (!leads) {
      const second = families.find(({ family }) => family.id === can.family.id);
      missed.push(
        `${can.family.id} (${(second?.probability ?? 0).toFixed(3)}) taken for ${families[0]?.family.id ?? "?"}: ${can.masses.map(({ fluid, fraction }) => `${fluid} ${fraction.toFixed(3)}`).join(", ")}`,
      );
    }
  }
  return { forecasts, right, cans: count, separable, rightOfSeparable, missed };
}
