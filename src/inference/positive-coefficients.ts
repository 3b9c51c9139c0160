import type { Marginal } from "./linear-marginal.ts";

/** Prior of a positive coefficient: its logarithm is normal. */
export interface LognormalPrior {
  /** Mean of the logarithm. */
  readonly ln: number;
  /** Standard deviation of the logarithm. */
  readonly sd: number;
}

/** What a posterior of positive coefficients comes to. */
export interface PositivePosterior {
  /** ln of the evidence. */
  readonly log: number;
  /** Mean and variance of the first coefficient's logarithm. */
  readonly lnMean: number;
  readonly lnVariance: number;
  /** Where the integrand was largest: about the most probable coefficients. */
  readonly best: readonly number[];
}

/** Steps of the first coefficient and of the second; the integrands are smooth, so a plain sum converges fast. */
const INNER = 41;
const OUTER = 25;
/** Ends of a range in standard deviations: what lies beyond weighs less than 1e-6. */
const REACH = 5;

/** Range of the logarithm in which the product of prior and likelihood matters. */
function range(prior: LognormalPrior, mean: number, sd: number): [number, number] {
  const low = prior.ln - REACH * prior.sd;
  const high = prior.ln + REACH * prior.sd;
  const top = mean + (REACH + 1) * sd;
  const bottom = mean - (REACH + 1) * sd;
  const from = bottom > 0 ? Math.max(low, Math.log(bottom)) : low;
  const to = top > 0 ? Math.min(high, Math.log(top)) : high;
  // Likelihood and prior do not meet: the prior's range is as good as any, and the evidence small.
  return from < to ? [from, to] : [low, high];
}

const lnPrior = ({ ln, sd }: LognormalPrior, u: number): number =>
  -0.5 * ((u - ln) / sd) ** 2 - Math.log(sd) - 0.5 * Math.log(2 * Math.PI);

/** Sums kept while an integrand is walked; `scale` is the largest exponent so far. */
interface Sums {
  scale: number;
  weight: number;
  first: number;
  second: number;
  best: readonly number[];
}

function add(sums: Sums, log: number, at: readonly number[]): void {
  const [x] = at;
  const u = Math.log(x);
  if (log > sums.scale) {
    const shrink = Math.exp(sums.scale - log);
    sums.weight *= shrink;
    sums.first *= shrink;
    sums.second *= shrink;
    sums.scale = log;
    sums.best = at;
  }
  const w = Math.exp(log - sums.scale);
  sums.weight += w;
  sums.first += w * u;
  sums.second += w * u * u;
}

const emptySums = (): Sums => ({ scale: -Infinity, weight: 0, first: 0, second: 0, best: [] });

function posteriorOf(
  base: number,
  { scale, weight, first, second, best }: Sums,
): PositivePosterior {
  const lnMean = first / weight;
  const lnVariance = Math.max(0, second / weight - lnMean ** 2);
  return { log: base + scale + Math.log(weight), lnMean, lnVariance, best };
}

/**
 * Evidence and posterior of one or two positive coefficients under lognormal priors.
 *
 * @param marginal Quadratic that is left of the likelihood.
 * @param priors   One a looked-at coefficient; one or two.
 * @throws         RangeError for another number of priors: the caller's bug.
 */
export function positivePosterior(
  { log, h, b }: Marginal,
  priors: readonly LognormalPrior[],
): PositivePosterior {
  const [first, second] = priors;
  if (priors.length < 1 || priors.length > 2) throw new RangeError(`${priors.length} priors`);
  const sums = emptySums();
  if (priors.length === 1) {
    walk(sums, { prior: first, h: h[0], b: b[0], base: 0, other: [] });
    return posteriorOf(log, sums);
  }
  const [h00, h01, , h11] = h;
  // Where the second coefficient lies with the first one free.
  const left = Math.max(h11 - h01 ** 2 / h00, 1e-12 * h11);
  const [from, to] = range(second, (b[1] - (h01 * b[0]) / h00) / left, 1 / Math.sqrt(left));
  const step = (to - from) / (OUTER - 1);
  for (let i = 0; i < OUTER; i++) {
    const u = from + i * step;
    const a = Math.exp(u);
    const base = b[1] * a - 0.5 * h11 * a * a + lnPrior(second, u) + Math.log(step);
    walk(sums, { prior: first, h: h00, b: b[0] - h01 * a, base, other: [a] });
  }
  return posteriorOf(log, sums);
}

interface Line {
  readonly prior: LognormalPrior;
  readonly h: number;
  readonly b: number;
  readonly base: number;
  readonly other: readonly number[];
}

/** Adds the integrand along the first coefficient. */
function walk(sums: Sums, { prior, h, b, base, other }: Line): void {
  const [from, to] = range(prior, b / h, 1 / Math.sqrt(h));
  const step = (to - from) / (INNER - 1);
  for (let i = 0; i < INNER; i++) {
    const u = from + i * step;
    const x = Math.exp(u);
    const log = base + b * x - 0.5 * h * x * x + lnPrior(prior, u) + Math.log(step);
    if (log > sums.scale - 40) add(sums, log, [x, ...other]);
  }
}
