import type { ClaimContext, ClaimJudge, ClaimVerdict } from "./context.ts";
import { judgeGwp, judgeOzone } from "./judge-climate.ts";
import { judgeContains, judgeNetMass } from "./judge-contents.ts";
import { judgeDropIn } from "./judge-drop-in.ts";
import { judgeHead, judgeVent } from "./judge-effect.ts";
import { judgeEquals } from "./judge-equals.ts";
import { judgeNotFlammable } from "./judge-flame.ts";
import type { ClaimKind, ClaimReading } from "./kinds.ts";

const judgeApproved: ClaimJudge = () => ({
  statement: "Somebody has approved, listed or certified it.",
  verdict: "undecided",
  because:
    "No measurement on a vehicle shows an approval, and approvals differ from place to place.",
  evidence: [],
  method: "Outside of what a trial can show.",
  wouldDecide:
    "The document itself: who approved what, for which use, under which number. The authority or the body named can be asked.",
});

const judgeOther: ClaimJudge = () => ({
  statement: "It names nothing that can be measured.",
  verdict: "undecided",
  because: "The sentence was not understood as something that a test speaks for or against.",
  evidence: [],
  method: "None.",
  wouldDecide: "A quantity, a number and a condition. If it has them, correct how it was read.",
});

const judges: Readonly<Record<ClaimKind, ClaimJudge>> = {
  "equals-mass": judgeEquals,
  "net-mass": judgeNetMass,
  contains: judgeContains,
  "not-flammable": judgeNotFlammable,
  "no-ozone-depletion": judgeOzone,
  gwp: judgeGwp,
  "drop-in": judgeDropIn,
  "lower-head-pressure": judgeHead,
  "colder-air": judgeVent,
  approved: judgeApproved,
  other: judgeOther,
};

/**
 * How a statement of a label stands: supported, contradicted or undecided, with what speaks for it.
 *
 * What only a label declares can contradict another sentence of that label; it supports none.
 */
export const judgeClaim = (claim: ClaimReading, context: ClaimContext): ClaimVerdict =>
  judges[claim.kind](claim, context);
