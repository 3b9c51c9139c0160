import { given } from "../../given.ts";
import type { ProductView, TrialView } from "../../view.ts";
import type { ProductClaims } from "../claims.ts";
import { claimContext } from "../claims/trial-context.ts";
import { judgeNetMass } from "../claims/judge-contents.ts";
import type { FairComparison, FairRow } from "../fair-comparison.ts";
import type { HazardFinding } from "../hazards.ts";
import { type Identification, identifiedSubstance } from "../identified.ts";
import { type Answer, type AnswerVerdict, decidingFirst, type Reason, verdictOf } from "./view.ts";

const asVerdict = {
  supported: "yes",
  contradicted: "no",
  undecided: "undecided",
} as const satisfies Record<string, AnswerVerdict>;

const answer = (
  question: Answer["question"],
  { id, name }: ProductView,
  reasons: readonly Reason[],
): Answer => ({
  question,
  about: id,
  name,
  verdict: verdictOf(reasons),
  reasons: decidingFirst(reasons),
});

/** Does the can hold what it says: its mass, what is in it, and what its label claims. */
export function holdsAnswer(
  view: TrialView,
  product: ProductView,
  {
    found,
    claims,
  }: {
    readonly found: Identification | undefined;
    readonly claims: ProductClaims | undefined;
  },
): Answer {
  const context = claimContext(view, product, { fair: [] });
  const mass = judgeNetMass({ kind: "net-mass" }, context);
  return answer("holds", product, [
    { verdict: asVerdict[mass.verdict], fact: { kind: "net-mass", claim: mass } },
    identityReason(product, found),
    ...claimsReason(claims),
  ]);
}

function identityReason({ fluid }: ProductView, found: Identification | undefined): Reason {
  const [leader] = found?.families ?? [];
  const named = found?.verdict === "named" ? leader : undefined;
  const settled = found && identifiedSubstance(found);
  const composition = found?.compositions.find(({ family }) => family === named?.id)?.parts ?? [];
  const fact = given({
    kind: "identity" as const,
    says: found?.says,
    declared: fluid,
    found: named?.title ?? settled?.name,
    parts:
      composition.length > 1
        ? composition.map(({ fluid: part, from, to }) => ({ fluid: part, from, to }))
        : [],
    probability: named?.probability,
  });
  if (!named) return { verdict: "undecided", fact };
  // A label that names no refrigerant says nothing that a content could contradict.
  if (fluid === undefined) return { verdict: "undecided", fact };
  return { verdict: named.id === fluid ? "yes" : "no", fact };
}

function claimsReason(claims: ProductClaims | undefined): Reason[] {
  const said = (claims?.claims ?? []).flatMap(({ text, statements }) =>
    statements.map((statement) => ({ text, ...statement })),
  );
  if (said.length === 0) return [];
  const contradicted = said
    .filter(({ verdict }) => verdict === "contradicted")
    .map(({ text, because }) => ({ text, because }));
  const supported = said.filter(({ verdict }) => verdict === "supported").length;
  const undecided = said.length - supported - contradicted.length;
  const verdict = contradicted.length > 0 ? "no" : undecided > 0 ? "undecided" : "yes";
  return [{ verdict, fact: { kind: "claims", supported, contradicted, undecided } }];
}

const ventVerdicts: Readonly<Record<FairRow["verdict"], AnswerVerdict>> = {
  equivalent: "yes",
  colder: "yes",
  warmer: "no",
  higher: "undecided",
  lower: "undecided",
  undecided: "undecided",
};

/** Does it cool as well: vent air in equal conditions against the margin. */
export function coolsAnswer(product: ProductView, fair: FairComparison | undefined): Answer {
  const none = (why: string): Answer =>
    answer("cools", product, [{ verdict: "undecided", fact: { kind: "no-comparison", why } }]);
  if (!fair) return none("The comparison in equal conditions was not worked out.");
  if (fair.kind === "none") return none(fair.why);
  const rows = fair.rows.filter(
    ({ product: of, quantity }) => of === product.id && quantity === "vent",
  );
  return rows.length === 0
    ? none("No run of it can be carried to equal conditions.")
    : answer(
        "cools",
        product,
        rows.map((row) => ({
          verdict: ventVerdicts[row.verdict],
          fact: { kind: "vent", row },
        })),
      );
}

/** Is it as safe as the label refrigerant: flame, poison, and whether it is what it says. */
export function safeAnswer(
  product: ProductView,
  {
    found,
    hazard,
    label,
  }: {
    readonly found: Identification | undefined;
    readonly hazard: HazardFinding | undefined;
    readonly label: HazardFinding | undefined;
  },
): Answer {
  return answer("safe", product, [
    ...(hazard ? [flameReason(hazard, label, flameKnown(product, found))] : []),
    poisonReason(found?.verdict === "none-explains" ? undefined : found),
    ...contaminatedReason(product, found),
  ]);
}

/** What is known of flame beside the figures: a mark or near certainty says yes; no when hardly anything still burns. */
function flameKnown(
  { flammableMark }: ProductView,
  found: Identification | undefined,
): "burns" | "may" | "ruled-out" {
  const chance = chanceOf(found, ["burns", "unknown"]);
  if (flammableMark || chanceOf(found, ["burns"]) >= REAL) return "burns";
  return found && chance <= RULED_OUT ? "ruled-out" : "may";
}

/** What burns in a vehicle whose label refrigerant does not is not as safe, whatever the mass. */
function flameReason(
  hazard: HazardFinding,
  label: HazardFinding | undefined,
  known: ReturnType<typeof flameKnown>,
): Reason {
  // What stands in for an unproven content says what could be, not what is.
  const rated = hazard.takenAs?.because === "identified" ? hazard.burns : undefined;
  const burns =
    known === "burns" || rated === "limits"
      ? true
      : rated === "does-not-burn" && known === "ruled-out"
        ? false
        : undefined;
  const fact = { kind: "flame" as const, hazard, burns };
  if (burns === true) return { verdict: burnsMore(hazard, label) ? "no" : "undecided", fact };
  return { verdict: burns === false ? "yes" : "undecided", fact };
}

function burnsMore(hazard: HazardFinding, label: HazardFinding | undefined): boolean {
  if (label?.burns === "does-not-burn") return true;
  const [mine, its] = [hazard.scenarios[0]?.zone.overLfl, label?.scenarios[0]?.zone.overLfl];
  return mine !== undefined && its !== undefined && mine > its;
}

/** From this chance on a hazard is taken for real; below the other it is ruled out (a choice, no source). */
const REAL = 0.95;
const RULED_OUT = 0.05;

/** Chance that the content has one of these hazards; 0 where nothing was weighed. */
const chanceOf = (
  found: Identification | undefined,
  kinds: readonly Identification["hazards"][number]["kind"][],
): number =>
  Math.max(
    0,
    ...(found?.hazards ?? [])
      .filter(({ kind }) => kinds.includes(kind))
      .map(({ probability }) => probability),
  );

function poisonReason(found: Identification | undefined): Reason {
  if (!found) return { verdict: "undecided", fact: { kind: "poison", probability: undefined } };
  const probability = chanceOf(found, ["toxic", "attacks-aluminium", "unknown"]);
  const verdict = probability >= REAL ? "no" : probability <= RULED_OUT ? "yes" : "undecided";
  return { verdict, fact: { kind: "poison", probability } };
}

function contaminatedReason({ fluid }: ProductView, found: Identification | undefined): Reason[] {
  const [leader] = found?.families ?? [];
  if (found?.verdict !== "named" || !leader || fluid === undefined || leader.id === fluid)
    return [];
  const fact = { kind: "contaminated" as const, declared: fluid, found: leader.title };
  return [{ verdict: "no", fact }];
}
