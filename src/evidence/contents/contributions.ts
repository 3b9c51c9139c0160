import type { Evidence } from "./evidence.ts";
import { type Posterior, type PosteriorOptions, posteriorOf } from "./posterior.ts";

/** What one piece of evidence says beside all the others. */
export interface Contribution {
  /** Place in the list of evidence. */
  readonly evidence: number;
  /**
   * ln of the factor by which it moves the odds of the leading family against all others; above 0 it speaks for it.
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

const logOdds = ({ families }: Posterior, id: string): number => {
  const p = families.find(({ family }) => family.id === id)?.probability ?? 0;
  const rest = families.reduce(
    (sum, { family, probability }) => (family.id === id ? sum : sum + probability),
    0,
  );
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
 * @param posterior Of all the evidence, with the same options.
 */
export function contributionsOf(
  evidence: readonly Evidence[],
  posterior: Posterior,
  options: PosteriorOptions,
): Contribution[] {
  const [leader] = posterior.families;
  if (!leader) return [];
  const { id, title } = leader.family;
  const all = held(logOdds(posterior, id));
  return evidence.map((_, k) => {
    const rest = posteriorOf(
      evidence.filter((_other, j) => j !== k),
      options,
    );
    const first = rest.families[0] ?? leader;
    const logRatio = held(all - held(logOdds(rest, id)));
    const otherwise = first.family.id === id ? undefined : first.family.title;
    return {
      evidence: k,
      logRatio,
      without: { family: first.family.id, probability: first.probability },
      says: wordsFor(logRatio, title, otherwise),
    };
  });
}
