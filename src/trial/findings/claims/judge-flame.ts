import { flammabilityOf } from "../../../service/index.ts";
import type { ClaimContext, ClaimEvidence, ClaimVerdict, KnownSubstance } from "./context.ts";
import { IDENTIFY, isKnown } from "./context.ts";
import type { ClaimReading } from "./kinds.ts";

const METHOD =
  "Safety classes and tests of the composition; a detector’s or identifier’s answer; the can’s own mark. Nobody tests it with a flame.";
/** More hydrocarbons than any blend listed as not burning has: R416A and R426A hold below 3 %. */
const MUCH_FUEL = 10;

/** What says that it burns. */
function flames({ product, tests }: ClaimContext): ClaimEvidence[] {
  const { substance } = product;
  const rated = substance && flammabilityOf(substance.moles, substance.named);
  const fuel = Math.max(
    0,
    ...tests.flatMap(({ parts }) =>
      (parts ?? [])
        .filter((part) => part.substance === "hydrocarbons")
        .map(({ percent }) => percent),
    ),
  );
  return [
    ...(product.flammableMark
      ? [{ from: "label" as const, text: "Its can carries a mark for flammable contents." }]
      : []),
    ...(substance && rated && (rated.kind === "limits" || rated.kind === "only-tests-count")
      ? [
          {
            from: "physics" as const,
            text: `${substance.name} ${rated.class === null ? "has parts that burn" : `is in class ${rated.class}`}: it burns, or counts as burning until tested.`,
            source: "ASHRAE 34, see data/facts/substances.json and data/facts/blends.json",
          },
        ]
      : []),
    ...(tests.some((one) => one.method === "combustible-gas-detector" && one.responded === true)
      ? [{ from: "trial" as const, text: "A detector for combustible gas responded to it." }]
      : []),
    ...(fuel > MUCH_FUEL
      ? [{ from: "trial" as const, text: `An identifier found ${fuel} % of hydrocarbons.` }]
      : []),
  ];
}

/** "Non-flammable". */
export function judgeNotFlammable(_claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const bare = { statement: "It does not burn in air.", method: METHOD };
  const evidence = flames(context);
  if (evidence.length > 0) {
    return { ...bare, verdict: "contradicted", because: evidence[0]?.text ?? "", evidence };
  }
  const { substance } = context.product;
  const rated = substance && flammabilityOf(substance.moles, substance.named);
  if (substance && rated?.kind === "does-not-burn") {
    const known = isKnown(context.product);
    return {
      ...bare,
      verdict: known ? "supported" : "undecided",
      because: known
        ? `No flame spreads in ${substance.name} by the standard’s test.`
        : `It would hold if the can contained ${substance.name}, which only its label says.`,
      evidence: [
        {
          from: "physics",
          text: `${substance.name} is ${rated.class === null ? "made of parts in class 1" : `in class ${rated.class}`}. Under pressure with air even such fluids can burn.`,
          source: "ASHRAE 34; 40 CFR 82 subpart B, appendix C 5.2",
        },
      ],
      ...(!known && { wouldDecide: IDENTIFY }),
    };
  }
  return {
    ...bare,
    verdict: "undecided",
    because: "What is in the can, and in which shares, is not known. Treat it as burning.",
    evidence: [],
    wouldDecide: `${IDENTIFY} A detector for combustible gas answers yes or no at once.`,
  };
}

/** Does anything say that it burns? */
export const saysItBurns = (context: ClaimContext): ClaimEvidence[] => flames(context);

/** Whether a refrigerant is in class 1, so that a vehicle made for it was not made for flame. */
export const doesNotBurn = ({ moles, named }: KnownSubstance): boolean =>
  flammabilityOf(moles, named).kind === "does-not-burn";
