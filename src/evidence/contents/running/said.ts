import { overallComposition, type PartInterval } from "../compositions.ts";
import type { Evidence, RunningEvidence } from "../evidence.ts";
import type { Posterior } from "../posterior.ts";
import type { WeighedRun } from "./weigh.ts";

/** What runs of a vehicle did to the answer. */
export interface RunsSaid {
  /** The answer of everything else: names rest on it. */
  readonly without: {
    readonly family: string;
    readonly title: string;
    readonly probability: number;
    readonly overall: readonly PartInterval[];
  };
  /** Titles of probable families of which the model says nothing: the runs leave them as they are. */
  readonly notRun: readonly string[];
  readonly says: string;
}

export const runsAmong = (evidence: readonly Evidence[]): RunningEvidence[] =>
  evidence.filter((each): each is RunningEvidence => each.kind === "running");

/** Families below are not told of. */
const TOLD = 0.01;

export function saidOfRuns(
  rest: Posterior,
  { families }: Posterior,
  runs: readonly WeighedRun[],
): RunsSaid {
  const [leader] = rest.families;
  if (!leader) throw new RangeError("there is no family to choose from");
  const notRun = families
    .filter(({ probability }) => probability >= TOLD)
    .filter(({ family }) => runs.some(({ answered }) => !answered.has(family.id)))
    .map(({ family }) => family.title);
  return {
    without: {
      family: leader.family.id,
      title: leader.family.title,
      probability: leader.probability,
      overall: overallComposition(rest),
    },
    notRun,
    says: [
      WORDS,
      ...(notRun.length > 0
        ? [`Left as they are, because the model has no run of them: ${notRun.join("; ")}.`]
        : []),
    ].join(" "),
  };
}

const WORDS =
  "The runs are weighed by what a model of the vehicle would read on each content. They say little, and they give no name.";
