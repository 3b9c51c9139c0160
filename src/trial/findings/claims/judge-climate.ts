import { climateOf, editions, ozoneOf } from "../../../service/index.ts";
import { type ClaimContext, type ClaimVerdict, IDENTIFY, isKnown } from "./context.ts";
import type { ClaimReading } from "./kinds.ts";

const SUM = "The sum over mass fractions of the parts’ published values.";

/** What follows if the composition is not known at all. */
const unknown = (statement: string, method: string): ClaimVerdict => ({
  statement,
  verdict: "undecided",
  because: "What is in the can, and in which shares, is not known.",
  evidence: [],
  method,
  wouldDecide: IDENTIFY,
});

/** A verdict on a composition; what only the label says can contradict the label, not support it. */
function onWord(context: ClaimContext, verdict: ClaimVerdict): ClaimVerdict {
  if (verdict.verdict !== "supported" || isKnown(context.product)) return verdict;
  return {
    ...verdict,
    verdict: "undecided",
    because: `It would hold if the can contained what its label declares. ${verdict.because}`,
    wouldDecide: IDENTIFY,
  };
}

/** "No ozone depletion". */
export function judgeOzone(_claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const statement = "Its ozone depletion potential is zero.";
  const { substance } = context.product;
  if (!substance) return unknown(statement, SUM);
  const sum = ozoneOf(substance.mass);
  const bare = { statement, method: SUM };
  if (sum.from > 0) {
    return {
      ...bare,
      verdict: "contradicted",
      because: `${substance.name} has an ozone depletion potential of ${String(Number(sum.from.toPrecision(2)))}, R11 being 1.`,
      evidence: factsOf(sum.parts, "ozone depletion potential"),
    };
  }
  if (sum.to === null) {
    return {
      ...bare,
      verdict: "undecided",
      because: `No value that may be used is known here for ${sum.missing.join(", ")}.`,
      evidence: [],
      wouldDecide: "A published value for every part.",
    };
  }
  return onWord(context, {
    ...bare,
    verdict: "supported",
    because: `No part of ${substance.name} depletes ozone.`,
    evidence: factsOf(sum.parts, "ozone depletion potential"),
  });
}

const factsOf = (parts: ReturnType<typeof ozoneOf>["parts"], what: string) =>
  parts.flatMap(({ fluid, fact }) =>
    fact
      ? [
          {
            from: "physics" as const,
            text: `${fluid}: ${what} ${typeof fact.value === "number" ? String(fact.value) : `${fact.value.from} to ${fact.value.to}`}.`,
            source: fact.source,
          },
        ]
      : [],
  );

/** "Zero GWP", "low GWP", "GWP below 4". */
export function judgeGwp(claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const limit = claim.limit ?? 150;
  const statement =
    limit < 1
      ? "Its global warming potential rounds to zero."
      : `Its global warming potential over 100 years is at most ${limit}.`;
  const method = `${SUM} Figures of the IPCC’s reports differ: the claim stands if it holds in each that has a figure.`;
  const { substance } = context.product;
  if (!substance) return unknown(statement, method);
  const sums = editions.map((edition) => ({ edition, sum: climateOf(substance.mass, edition) }));
  const evidence = sums.map(({ edition, sum }) => ({
    from: "physics" as const,
    text:
      sum.value === null
        ? `${edition}: no figure for ${sum.missing.join(", ")}; at least ${round(sum.from)}.`
        : `${edition}: ${round(sum.value)}.`,
    source: [...new Set(sum.parts.flatMap(({ fact }) => (fact ? [fact.source] : [])))].join("; "),
  }));
  const bare = { statement, evidence, method };
  const above = sums.filter(({ sum }) => sum.from > limit).map(({ edition }) => edition);
  const known = sums.filter(({ sum }) => sum.value !== null);
  const below = known.filter(({ sum }) => (sum.to ?? Infinity) <= limit);
  if (known.length > 0 && above.length >= known.length) {
    return {
      ...bare,
      verdict: "contradicted",
      because: `${substance.name} is above it in every report that has a figure.`,
    };
  }
  if (known.length > 0 && below.length === known.length && above.length === 0) {
    const because = `${substance.name} is not above it in any report that has a figure.`;
    return onWord(context, { ...bare, verdict: "supported", because });
  }
  return {
    ...bare,
    verdict: "undecided",
    because: "The reports differ, and the claim names none.",
    wouldDecide: "The report’s edition that the claim means.",
  };
}

const round = (value: number): string => String(Number(value.toPrecision(3)));
