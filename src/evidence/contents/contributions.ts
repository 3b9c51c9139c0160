import type { Evidence } from "./evidence.ts";
import { type Posterior, type PosteriorOptions, posteriorOf } from "./posterior.ts";
import { type WeighedRun, withRun } from "./running/weigh.ts";

/** What one piece of evidence says beside all the others. */
export interface Contribution {
  /** Place in the list of evidence. */
  readonly evidence: number;
  /**
   * ln of the factor by which it moves the odds of the leading family, and of those that fit all the evidence as
   * well, against all others; above 0 it speaks for them.
   * Held between ±{@link MOST}, beyond which no chain of shop readings means more.
   */
  readonly logRatio: number;
  /** The family that would lead without it, and its probability. */
  readonly without: { readonly family: string; readonly probability: number };
  /** In plain words. */
  readonly says: string;
}

const MOST = Math.log(1e6);
/** A factor below this says next to nothing. */
const SLIGHT = Math.log(1.5);

const held = (x: number): number => Math.min(MOST, Math.max(-MOST, x));

/** Of the families in a group against all others. */
const logOdds = ({ families }: Posterior, group: ReadonlySet<string>): number => {
  let [p, rest] = [0, 0];
  for (const { family, probability } of families) {
    if (group.has(family.id)) p += probability;
    else rest += probability;
  }
  return Math.log(Math.max(p, 1e-300)) - Math.log(Math.max(rest, 1e-300));
};

/** A factor as people say it: 3.2, 40, 1500. */
const factor = (log: number): string => {
  const value = Math.exp(Math.abs(log));
  if (value >= 1e6) return "more than 100 000";
  if (value >= 100) return Number(value.toPrecision(1)).toLocaleString("en").replaceAll(",", " ");
  return value >= 10 ? value.toFixed(0) : value.toFixed(1);
};

/** Words for a ratio of evidence. */
function wordsFor(logRatio: number, leading: string, otherwise: string | undefined): string {
  const led = otherwise === undefined ? "" : ` Without it, ${otherwise} would lead.`;
  if (Math.abs(logRatio) < SLIGHT)
    return `It says next to nothing for or against ${leading}.${led}`;
  const direction = logRatio > 0 ? "for" : "against";
  return `It speaks ${direction} ${leading} by a factor of ${factor(logRatio)} over everything else.${led}`;
}

/**
 * Leaves each piece of evidence out in turn.
 *
 * @param posterior Of all the evidence.
 * @param alike     Ids of families that fit all the evidence as well as the leading one.
 */
export function contributionsOf(
  evidence: readonly Evidence[],
  posterior: Posterior,
  alike: readonly string[],
  { runs, ...options }: PosteriorOptions & { readonly runs: readonly WeighedRun[] },
): Contribution[] {
  const [leader] = posterior.families;
  if (!leader) return [];
  const { id, title } = leader.family;
  const group = new Set([id, ...alike]);
  const name = alike.length > 0 ? `${title} and what fits as well` : title;
  const all = held(logOdds(posterior, group));
  return evidence.map((left, k) => {
    const others = evidence.filter((_other, j) => j !== k);
    const rest = runs
      .filter((run) => run.evidence !== left)
      .reduce(withRun, posteriorOf(others, options));
    const first = rest.families[0] ?? leader;
    const logRatio = held(all - held(logOdds(rest, group)));
    const otherwise = first.family.id === id ? undefined : first.family.title;
    return {
      evidence: k,
      logRatio,
      without: { family: first.family.id, probability: first.probability },
      says: wordsFor(logRatio, name, otherwise),
    };
  });
}
