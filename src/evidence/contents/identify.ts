import { chiSquareTail } from "../../inference/index.ts";
import { compositionOf, overallComposition, type PartInterval } from "./compositions.ts";
import { type Contribution, contributionsOf } from "./contributions.ts";
import type { Evidence } from "./evidence.ts";
import type { FamilyKind } from "./families.ts";
import { type NextMeasurement, nextMeasurements } from "./foresee.ts";
import { type ContentHazard, eitherHazards, hazardsOf } from "./hazards.ts";
import { borneOut, withoutLabel, type WithoutLabel } from "./label.ts";
import { type JudgedFamily, type Posterior, posteriorOf } from "./posterior.ts";
import { runsAmong, type RunsSaid, saidOfRuns } from "./running/said.ts";
import { weighedRun, withRun } from "./running/weigh.ts";

/** A family in the answer. */
export interface FamilyAnswer {
  readonly id: string;
  readonly title: string;
  readonly kind: FamilyKind;
  readonly prior: number;
  readonly probability: number;
  /** Why it is thought of at all. */
  readonly source: string;
}

export interface CompositionAnswer {
  readonly family: string;
  readonly parts: readonly PartInterval[];
}

/** What is in the can, as far as the evidence says. */
export interface Contents {
  /**
   * `named`: one family holds 95 %, without runs of a vehicle too, and leads against all others without its label;
   * `undecided`: none does; `none-explains`: "none of these" leads, or what leads fits the readings worse than
   * chance allows.
   */
  readonly verdict: "named" | "undecided" | "none-explains";
  readonly says: string;
  /** Most probable first, down to one in two thousand. */
  readonly families: readonly FamilyAnswer[];
  /** Of the families above one per cent that are made of parts. */
  readonly compositions: readonly CompositionAnswer[];
  /** Parts by mass over all probable families together, with 95 % intervals. */
  readonly overall: readonly PartInterval[];
  readonly contributions: readonly Contribution[];
  /** Where runs of a vehicle were weighed: what stands without them, and what the model could not run. */
  readonly runs?: RunsSaid;
  /** Where a label was weighed: what leads without it. */
  readonly withoutLabel?: WithoutLabel;
  /** Families that fit the readings as well as the leading one: only the prior tells them apart. */
  readonly indistinguishable: { readonly families: readonly string[]; readonly says: string };
  readonly hazards: readonly ContentHazard[];
  readonly next: readonly NextMeasurement[];
  /** How well the leading family fits at its best. */
  readonly fit: {
    readonly misfit: number;
    readonly measured: number;
    /** Chance of a worse fit if it were true. */
    readonly chance: number;
  };
}

export interface IdentifyOptions {
  readonly prior?: Readonly<Record<string, number>>;
  readonly seed?: number;
}

const NAMED = 0.95;
/** Probabilities below are not listed. */
const LISTED = 5e-4;
const WITH_COMPOSITION = 0.01;
/** ln-likelihood at the best point: closer than this is as good as the same (a factor of e²). */
const AS_GOOD = 2;
/** A fit worse than this by chance alone is none. */
const POOR = 0.002;

const FULL = { points: 1000, passes: 3 } as const;
/** Leaving readings out needs no more than odds. */
const QUICK = { points: 280, passes: 1 } as const;

/**
 * What is in the can: probabilities of families, their compositions, what each reading said, what cannot be told
 * apart and what to measure next.
 *
 * @param evidence Any subset, none included: then the answer is the prior.
 * @returns        The same for the same evidence, prior and seed.
 *
 * Limits, likelihoods and priors: docs/models/contents.md. Checked: contents.test.ts, test/campaign.
 */
export function identify(evidence: readonly Evidence[], options: IdentifyOptions = {}): Contents {
  const { prior, seed = 1 } = options;
  const common = { seed, ...(prior && { prior }) };
  const rest = posteriorOf(evidence, { ...common, ...FULL });
  const runs = runsAmong(evidence).map((run) => weighedRun(run, rest));
  const posterior = runs.reduce(withRun, rest);
  const [leader] = posterior.families;
  if (!leader) throw new RangeError("there is no family to choose from");
  const fit = fitOf(leader, posterior.measured);
  const said = runs.length > 0 ? saidOfRuns(rest, posterior, runs) : undefined;
  const bare = withoutLabel(evidence, posterior, prior);
  const proven = borneOut(leader.family.id, bare);
  const stands = proven && (!said || (isMeasured(evidence) && namedAtRest(leader.family.id, said)));
  const verdict = verdictOf(leader, fit.chance, stands);
  const alike = indistinguishableFrom(leader, posterior);
  const listed = posterior.families.filter(({ probability }) => probability >= LISTED);
  return {
    verdict,
    says: verdictWords(verdict, posterior, {
      alike: alike.length,
      said,
      claimed: proven ? undefined : bare,
    }),
    families: listed.map(({ family, prior: before, probability }) => ({
      id: family.id,
      title: family.title,
      kind: family.kind,
      prior: before,
      probability,
      source: family.source,
    })),
    compositions: listed
      .filter(
        ({ probability, family }) => probability >= WITH_COMPOSITION && family.fluids.length > 0,
      )
      .map((judged) => ({ family: judged.family.id, parts: compositionOf(judged) })),
    overall: overallComposition(posterior),
    contributions: contributionsOf(
      evidence,
      posterior,
      alike.map(({ family }) => family.id),
      { ...common, ...QUICK, runs },
    ),
    ...(said && { runs: said }),
    ...(bare && { withoutLabel: bare }),
    indistinguishable: {
      families: alike.map(({ family }) => family.id),
      says: alikeWords(evidence, leader, alike),
    },
    hazards: runs.length > 0 ? eitherHazards(rest, posterior) : hazardsOf(posterior),
    next: nextMeasurements(evidence, posterior),
    fit,
  };
}

/** Chance of a larger sum of squares. */
const chanceOfWorse = (misfit: number, n: number): number =>
  n === 0 || !Number.isFinite(misfit) ? 1 : chiSquareTail(misfit, n);

const fitOf = ({ misfit, family }: JudgedFamily, measured: number): Contents["fit"] => {
  const known = Number.isFinite(misfit) && family.kind !== "none" ? misfit : 0;
  return { misfit: known, measured, chance: chanceOfWorse(known, measured) };
};

function verdictOf(
  { family, probability }: JudgedFamily,
  chance: number,
  stands: boolean,
): Contents["verdict"] {
  if (family.kind === "none" || chance < POOR) return "none-explains";
  return probability >= NAMED && stands ? "named" : "undecided";
}

/** A forecast gives no name: what holds one has to hold it without the runs, and by more than its label. */
const namedAtRest = (family: string, { without }: RunsSaid): boolean =>
  without.family === family && without.probability >= NAMED;
const isMeasured = (evidence: readonly Evidence[]): boolean =>
  evidence.some(({ kind }) => kind !== "running" && kind !== "label");

const percent = (p: number): string =>
  p > 0.995 ? "more than 99 %" : p < 0.01 ? "less than 1 %" : `${(100 * p).toFixed(0)} %`;

interface Standing {
  /** Families that fit as well. */
  readonly alike: number;
  readonly said: RunsSaid | undefined;
  /** What leads without the label, where that does not bear the name out. */
  readonly claimed: WithoutLabel | undefined;
}

function verdictWords(
  verdict: Contents["verdict"],
  { families }: Posterior,
  { alike, said, claimed }: Standing,
): string {
  const [first, second] = families;
  if (!first) return "";
  if (verdict === "undecided" && claimed && first.probability >= NAMED)
    return `The readings do not decide. ${first.family.title} leads with ${percent(first.probability)}, but only because its label says so; without the label ${claimed.title} leads with ${percent(claimed.probability)}. A label proves nothing.`;
  if (verdict === "undecided" && said && first.probability >= NAMED)
    return `The readings at rest do not decide. ${first.family.title} leads with ${percent(first.probability)}, but only together with what a model of the vehicle expects; without the runs ${said.without.title} leads with ${percent(said.without.probability)}. A model gives no name.`;
  const lead = first.family.title;
  switch (verdict) {
    case "named":
      return `It is ${lead}, with a probability of ${percent(first.probability)}${alike > 0 ? "; what is much like it cannot be ruled out by the readings alone" : ""}.`;
    case "none-explains":
      return "Nothing that is known here explains the readings. Check them first; if they stand, treat the content as an unknown.";
    case "undecided":
      return `The readings do not decide. ${lead} leads with ${percent(first.probability)}${second ? `, ${second.family.title} follows with ${percent(second.probability)}` : ""}.`;
  }
}

function indistinguishableFrom(leader: JudgedFamily, { families }: Posterior): JudgedFamily[] {
  return families.filter(
    ({ family, logBest, probability }) =>
      family.id !== leader.family.id &&
      family.kind !== "none" &&
      probability >= LISTED &&
      logBest >= leader.logBest - AS_GOOD,
  );
}

function alikeWords(
  evidence: readonly Evidence[],
  leader: JudgedFamily,
  alike: readonly JudgedFamily[],
): string {
  const measured = evidence.filter(({ kind }) => kind !== "label");
  if (measured.length === 0) return "There is no reading yet: what stands here is only the prior.";
  if (alike.length === 0) return "No other family fits the readings as well as the one that leads.";
  const names = alike.map(({ family }) => family.title).join("; ");
  const pressureOnly = measured.every(({ kind }) => kind === "pressure" || kind === "boiling");
  const because = pressureOnly
    ? "Static pressure alone cannot tell apart"
    : "The readings cannot tell apart";
  return `${because} ${leader.family.title} and: ${names}. Each of them fits as well; only how probable they were before the readings sets their order.`;
}
