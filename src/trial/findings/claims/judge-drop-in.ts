import { referenceCycle } from "../../../service/index.ts";
import type { ClaimContext, ClaimEvidence, ClaimVerdict } from "./context.ts";
import { doesNotBurn, saysItBurns } from "./judge-flame.ts";
import type { ClaimReading } from "./kinds.ts";

const METHOD =
  "“Drop-in” and “compatible” name no test. Here it means that nothing of the vehicle has to change: neither its safety, nor its pressures, capacity, oil and seals.";
const WOULD =
  "Equal vent air and pressures in equal conditions within the margin fixed in the plan, and the vehicle maker’s word on oil, seals and label. Fittings and label have to change by law in many places: ask the authority.";

const ratio = (a: number, b: number): string => `${(a / b).toFixed(2)} times`;

/** A loop at fixed temperatures beside that of the label refrigerant. */
function loops({ product, reference }: ClaimContext): ClaimEvidence[] {
  const { substance } = product;
  if (!substance || !reference) return [];
  const mine = referenceCycle(substance.material);
  const theirs = referenceCycle(reference.material);
  if (!mine || !theirs) return [];
  const glide =
    mine.glide > 1
      ? ` It boils over ${mine.glide.toFixed(0)} K, so it has to be charged as liquid, and a leak changes it.`
      : "";
  return [
    {
      from: "physics",
      text: `Between 5 and 50 °C ${substance.name} cools ${ratio(mine.volumetric, theirs.volumetric)} as much by volume drawn in as ${reference.name}, at ${ratio(mine.high, theirs.high)} its condensing and ${ratio(mine.low, theirs.low)} its evaporating pressure, and discharges ${Math.abs(mine.discharge - theirs.discharge).toFixed(0)} K ${mine.discharge < theirs.discharge ? "cooler" : "hotter"}.${glide}`,
      source:
        "loop with 10 K superheat, 5 K subcooling, isentropic efficiency 0.65; equations of state of data/fluids",
    },
  ];
}

/** "Drop-in", "compatible with all systems". */
export function judgeDropIn(_claim: ClaimReading, context: ClaimContext): ClaimVerdict {
  const { reference } = context;
  const burns = saysItBurns(context);
  const evidence = [...burns, ...loops(context)];
  const bare = {
    statement: "It can take the label refrigerant’s place with nothing changed.",
    evidence,
    method: METHOD,
  };
  if (burns.length > 0 && reference && doesNotBurn(reference)) {
    return {
      ...bare,
      verdict: "contradicted",
      because: `It burns, and a vehicle made for ${reference.name}, which does not, was not made for that. It may be prohibited: local codes and the vehicle’s maker decide.`,
    };
  }
  return {
    ...bare,
    verdict: "undecided",
    because: "Nothing here speaks against it outright, and no single test shows it.",
    wouldDecide: WOULD,
  };
}
