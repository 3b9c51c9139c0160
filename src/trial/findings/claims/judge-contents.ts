import { substanceFacts } from "../../../service/index.ts";
import { isFluidId } from "../../../fluids/index.ts";
import {
  type ClaimContext,
  type ClaimVerdict,
  grams,
  IDENTIFY,
  isKnown,
  type WeighedCan,
} from "./context.ts";
import type { ClaimReading } from "./kinds.ts";
import { TRACE } from "./sample-tests.ts";

/** From this part on it counts as pure: practice of identifiers, from memory. */
const PURE = 98;

const isHydrocarbon = (name: string): boolean =>
  isFluidId(name) && substanceFacts(name).family === "hydrocarbon";

/** Percent by mass of a refrigerant by an identifier, which tells hydrocarbons as one. */
function percentOf(
  name: string,
  parts: readonly { readonly substance: string; readonly percent: number }[],
): number {
  const as = isHydrocarbon(name) ? [name, "hydrocarbons"] : [name];
  return parts
    .filter(({ substance }) => as.includes(substance))
    .reduce((sum, { percent }) => sum + percent, 0);
}

/** "Contains R134a", "100 % pure". */
export function judgeContains(claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const { of = "what the label names", pure = false } = claim;
  const method = "What an identifier found, or the composition that is known from elsewhere.";
  const statement = pure ? `It is pure ${of}.` : `It contains ${of}.`;
  const { product, tests } = context;
  const found = tests.flatMap(({ parts }) => (parts ? [percentOf(of, parts)] : []));
  const known = isKnown(product) ? product.substance : undefined;
  const given = known?.mass
    .filter(({ fluid }) => fluid === of || (of === "hydrocarbons" && isHydrocarbon(fluid)))
    .reduce((sum, { fraction }) => sum + 100 * fraction, 0);
  const percents = [...found, ...(given === undefined ? [] : [known?.name === of ? 100 : given])];
  if (percents.length === 0) {
    const because = "Nothing was found out about the contents yet.";
    return {
      statement,
      verdict: "undecided",
      because,
      evidence: [],
      method,
      wouldDecide: IDENTIFY,
    };
  }
  const least = Math.min(...percents);
  const most = Math.max(...percents);
  const enough = pure ? PURE : TRACE;
  const evidence = [
    ...found.map((percent) => ({
      from: "trial" as const,
      text: `An identifier found ${percent.toFixed(0)} % of ${isHydrocarbon(of) ? "hydrocarbons" : of}.`,
    })),
    ...(given === undefined
      ? []
      : [{ from: "physics" as const, text: `As given it holds ${given.toFixed(0)} % of ${of}.` }]),
  ];
  // An identifier tells hydrocarbons from the rest, not one from another.
  const blurred = isHydrocarbon(of) && given === undefined && most >= enough;
  const verdict =
    most < enough ? "contradicted" : least < enough || blurred ? "undecided" : "supported";
  return {
    statement,
    verdict,
    because: blurred
      ? "An identifier tells hydrocarbons from the rest, not which they are."
      : `Found: ${least.toFixed(0)} %${most.toFixed(0) === least.toFixed(0) ? "" : ` to ${most.toFixed(0)} %`}.`,
    evidence,
    method,
    ...(verdict === "undecided" && { wouldDecide: IDENTIFY }),
  };
}

/** An interval within this part of the mass on the label confirms it: our own choice, near what packages may lack. */
const NARROW = 0.05;

/** What a can held, from what was weighed out of it: 95 % interval, kg. */
function heldBy({ delivered, u, emptied, residue }: WeighedCan) {
  return { from: delivered - 2 * u, to: emptied ? delivered + residue + 2 * u : Infinity };
}

/** "Net weight 240 g". */
export function judgeNetMass(claim: ClaimReading, { product, cans }: ClaimContext): ClaimVerdict {
  const mass = claim.mass ?? product.labelMass;
  const method =
    "What was weighed out of a can, and the vapour that stays in an emptied one, against the mass on its label: two standard uncertainties either way.";
  const statement =
    mass === undefined ? "The can holds what its label says." : `A can holds ${grams(mass)}.`;
  const bare = { statement, method };
  if (mass === undefined || cans.length === 0) {
    return {
      ...bare,
      verdict: "undecided",
      because: mass === undefined ? "No mass is given." : "No can was weighed before and after.",
      evidence: [],
      wouldDecide: "Weighing a can full and emptied, with a scale whose limit is listed.",
    };
  }
  const evidence = cans.map((can) => ({
    from: "trial" as const,
    text: `${can.name}: ${grams(can.delivered)} ± ${grams(2 * can.u)} came out${can.emptied ? `, and at most ${grams(can.residue)} of vapour stayed inside` : "; it was not emptied"}.`,
  }));
  const held = cans.map(heldBy);
  if (held.some(({ from, to }) => mass < from || mass > to)) {
    const less = held.some(({ to }) => mass > to);
    const because = less
      ? `A can held less: at most ${grams(Math.min(...held.map(({ to }) => to)))}.`
      : `A can held more: at least ${grams(Math.max(...held.map(({ from }) => from)))}.`;
    return { ...bare, verdict: "contradicted", because, evidence };
  }
  const emptied = cans.some((can) => can.emptied);
  const narrow = held.some(({ from, to }) => to - from <= 2 * NARROW * mass);
  return narrow
    ? { ...bare, verdict: "supported", because: "What was weighed agrees with it.", evidence }
    : {
        ...bare,
        verdict: "undecided",
        because: emptied
          ? `It held ${grams(Math.max(...held.map(({ from }) => from)))} to ${grams(Math.min(...held.map(({ to }) => to)))}: too wide to say.`
          : "No can was emptied, so only part of it was weighed.",
        evidence,
        wouldDecide: emptied
          ? "The can’s volume, or its mass once it is open and empty: then what stayed inside is known. A scale of finer class."
          : "Weighing a can full and emptied.",
      };
}
