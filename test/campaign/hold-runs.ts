import { analyseHold, type HoldCause } from "../../src/evidence/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { GAUGE, makeHold } from "./hold-population.ts";
import { apart, APART } from "./hold-separability.ts";

const causes: readonly HoldCause[] = ["tight", "wet", "outgassing", "leaking"];

/** Analyses made holds and counts. */
export function runHolds(count: number, seed: number) {
  const random = createRandom(seed);
  const bins = Array.from({ length: 10 }, () => ({ n: 0, stated: 0, happened: 0, variance: 0 }));
  const confusion: Record<string, number> = {};
  const sums = {
    separable: 0,
    right: 0,
    wrong: 0,
    named: 0,
    namedRight: 0,
    leaks: 0,
    covered: 0,
    likeliestRight: 0,
    likeliestSeparable: 0,
  };
  for (let i = 0; i < count; i++) {
    const hold = makeHold(random);
    const found = analyseHold(hold, {
      volume: hold.volume,
      uVolume: 0,
      uGauge: GAUGE,
      resolution: hold.resolution,
    });
    for (const cause of causes) {
      const stated = found.probabilities[cause];
      const bin = bins[Math.min(9, Math.floor(stated * 10))];
      if (!bin) continue;
      bin.n++;
      bin.stated += stated;
      bin.happened += cause === hold.cause ? 1 : 0;
      bin.variance += stated * (1 - stated);
    }
    const likeliest = causes.reduce((a, b) =>
      found.probabilities[b] > found.probabilities[a] ? b : a,
    );
    if (likeliest === hold.cause) sums.likeliestRight++;
    if (found.cause !== "undecided") {
      sums.named++;
      if (found.cause === hold.cause) sums.namedRight++;
    }
    if (apart(hold) >= APART) {
      sums.separable++;
      if (likeliest === hold.cause) sums.likeliestSeparable++;
      if (found.cause === hold.cause) sums.right++;
      else {
        const name = `${hold.cause} as ${found.cause}`;
        confusion[name] = (confusion[name] ?? 0) + 1;
        if (found.cause !== "undecided") sums.wrong++;
      }
    }
    if (hold.leak > 0) {
      sums.leaks++;
      if (hold.leak >= found.leak.from && hold.leak <= found.leak.to) sums.covered++;
    }
  }
  const filled = bins.filter(({ n }) => n > 0);
  return {
    separable: sums.separable / count,
    right: sums.right / sums.separable,
    wrong: sums.wrong / sums.separable,
    likeliestRight: sums.likeliestRight / count,
    likeliestSeparable: sums.likeliestSeparable / sums.separable,
    named: sums.named / count,
    namedRight: sums.namedRight / sums.named,
    coverage: sums.covered / sums.leaks,
    leaks: sums.leaks,
    /** Largest miss of a bin, in its own standard deviations. */
    worstCalibration: Math.max(
      ...filled.map(
        ({ stated, happened, variance }) =>
          Math.abs(stated - happened) / Math.sqrt(variance + 0.25),
      ),
    ),
    reliability: filled.map(({ n, stated, happened }) =>
      [n, stated / n, happened / n].map((x) => Number(x.toPrecision(3))),
    ),
    confusion,
  };
}
