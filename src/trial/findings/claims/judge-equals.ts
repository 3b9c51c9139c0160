import { equivalenceOf, heatOfEvaporation, largestHeat } from "../../../service/index.ts";
import {
  type ClaimContext,
  type ClaimEvidence,
  type ClaimVerdict,
  grams,
  IDENTIFY,
  isKnown,
  type KnownSubstance,
} from "./context.ts";
import type { ClaimReading } from "./kinds.ts";

/** Masses closer than this count as equal: our own choice. */
const CLOSE = 0.1;
const METHOD =
  "“Equals” can mean the same volume of liquid, as many molecules, or the same heat taken up by evaporating. The claim stands if all three agree with it within 10 %.";
const EQUATIONS =
  "equations of state of data/fluids; saturated liquid at 25 °C, evaporation at 5 °C";

const close = (a: number, b: number): boolean => Math.abs(a / b - 1) <= CLOSE;

/** "240 g equals 680 g of R134a". */
export function judgeEquals(claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const { product } = context;
  const mass = claim.mass ?? product.labelMass;
  const reference = claim.of === undefined ? context.reference : context.find(claim.of);
  const { equals } = claim;
  if (mass === undefined || equals === undefined || !reference) {
    return {
      statement: "The product’s mass stands for a mass of another refrigerant.",
      verdict: "undecided",
      because:
        "The sentence does not say both masses and the refrigerant, so there is nothing to test.",
      evidence: [],
      method: METHOD,
      wouldDecide: "The product’s mass, the mass it is to equal, and of what.",
    };
  }
  const statement = `${grams(mass)} of ${product.name} stands for ${grams(equals)} of ${reference.name}.`;
  const said = { statement, mass, equals, reference };
  return product.substance ? byComposition(said, product.substance, context) : byBound(said);
}

interface Said {
  readonly statement: string;
  readonly mass: number;
  readonly equals: number;
  readonly reference: KnownSubstance;
}

function byComposition(
  { statement, mass, equals, reference }: Said,
  substance: KnownSubstance,
  { product }: ClaimContext,
): ClaimVerdict {
  const worth = equivalenceOf(substance.material, reference.material);
  if (!worth) {
    const because = `${substance.name} and ${reference.name} are not both liquid at 25 °C and 5 °C, so no such equality exists to test.`;
    return {
      statement,
      verdict: "undecided",
      because,
      evidence: [],
      method: METHOD,
      wouldDecide: "A claim about something that can be measured.",
    };
  }
  const means = [
    ["fills the volume of", worth.liquidVolume],
    ["has as many molecules as", worth.moles],
    ["takes up, evaporating once, the heat of", worth.heat],
  ] as const;
  const evidence = means.map(([verb, each]): ClaimEvidence => ({
    from: "physics",
    text: `${grams(mass)} of ${substance.name} ${verb} ${grams(each * mass)} of ${reference.name}.`,
    source: EQUATIONS,
  }));
  const agreeing = means.filter(([, each]) => close(each * mass, equals));
  if (agreeing.length === means.length) {
    const known = isKnown(product);
    return {
      statement,
      verdict: known ? "supported" : "undecided",
      because: known
        ? "It holds by volume of liquid, by molecules and by heat."
        : `It would hold if the can contained ${substance.name}, which only its label says.`,
      evidence,
      method: METHOD,
      ...(!known && { wouldDecide: IDENTIFY }),
    };
  }
  const byVolume = close(worth.liquidVolume * mass, equals);
  const because = byVolume
    ? `It holds as a volume of liquid only. In heat taken up ${grams(mass)} stands for ${grams(worth.heat * mass)} of ${reference.name}.`
    : `In none of its meanings do all figures come near: as liquid ${grams(worth.liquidVolume * mass)}, in heat ${grams(worth.heat * mass)}.`;
  return { statement, verdict: "contradicted", because, evidence, method: METHOD };
}

/** Without the composition: no refrigerant carries more heat a kilogram than the best one. */
function byBound({ statement, mass, equals, reference }: Said): ClaimVerdict {
  const heat = heatOfEvaporation(reference.material);
  const best = largestHeat();
  const needed = heat === undefined ? undefined : (heat * equals) / mass;
  const bare = { statement, method: METHOD };
  if (needed === undefined || needed <= best.heat * (1 + CLOSE)) {
    return {
      ...bare,
      verdict: "undecided",
      because: "It depends on what is in the can, and in which shares: that is not known.",
      evidence: [],
      wouldDecide: IDENTIFY,
    };
  }
  const kilo = (joules: number): string => `${(joules / 1e3).toFixed(0)} kJ/kg`;
  return {
    ...bare,
    verdict: "contradicted",
    because: `Whatever is in the can: no refrigerant known here takes up so much heat, ${kilo(needed)}; the best takes up ${kilo(best.heat)}.`,
    evidence: [
      {
        from: "physics",
        text: `${grams(equals)} of ${reference.name} takes up ${kilo(heat ?? 0)} evaporating at 5 °C, so ${grams(mass)} would have to take up ${kilo(needed)}. The most among the fluids known here that boil below 25 °C is that of ${best.fluid}, ${kilo(best.heat)}. Ammonia, not known here, takes up more (about 1.2 MJ/kg, from memory) and attacks copper and brass.`,
        source: EQUATIONS,
      },
    ],
  };
}
