import type { FluidId } from "../../fluids/index.ts";
import { flammabilityOf, ratedBlends, substanceFacts, toMoles } from "../../service/index.ts";
import { compositionOf, type PartInterval } from "./compositions.ts";
import type { JudgedFamily, Posterior } from "./posterior.ts";

/** How a still probable content can hurt. */
export interface ContentHazard {
  readonly kind: "burns" | "toxic" | "attacks-aluminium" | "unknown";
  /** Probability that the content has it, at least. */
  readonly probability: number;
  /** Families that bring it, most probable first. */
  readonly families: readonly string[];
  readonly says: string;
}

/** A family below this is no longer probable enough to be treated as possible. */
export const STILL_PROBABLE = 0.005;
/** Mass fraction from which a part counts (common practice, no source). */
const COUNTS = 0.02;

const says: Readonly<Record<ContentHazard["kind"], string>> = {
  burns:
    "What is inside may burn. Treat it as flammable until that is ruled out: outdoors or ventilated low down, no ignition source, a detector rated for the gas, and no machine that is not made for flammable gas.",
  toxic:
    "What is inside may poison. Do not breathe it, release nothing, and wear gloves and goggles until that is ruled out.",
  "attacks-aluminium":
    "What is inside may be methyl chloride (R40), which reacts with aluminium and can make parts and gauges burst into flame or explode, also long after. Do not charge it, do not connect a machine, keep it away from aluminium, and hand it to licensed disposal.",
  unknown:
    "Nothing that is known here explains the readings. Treat it as flammable, poisonous and corrosive, and do not charge it.",
};

const burns = (fluid: FluidId): boolean =>
  !(substanceFacts(fluid).class?.value ?? "A3").endsWith("1");
const poisons = (fluid: FluidId): boolean =>
  substanceFacts(fluid).class?.value.startsWith("B") ?? false;

/** A named blend whose class says that no flame spreads in it, though a part of it burns alone. */
function isTamed(blend: string): boolean {
  const named = ratedBlends.find((one) => one.blend === blend);
  return (
    named !== undefined && flammabilityOf(toMoles(named.parts), named).kind === "does-not-burn"
  );
}

/**
 * How a content hurts by its parts.
 *
 * @param blend Its name, where it is a named blend: then its class tells whether it burns.
 */
export function hazardsOfParts(
  parts: readonly Pick<PartInterval, "fluid" | "to">[],
  blend?: string,
): ContentHazard["kind"][] {
  const fluids = parts.filter(({ to }) => to > COUNTS).map(({ fluid }) => fluid);
  const flame = fluids.some(burns) && !(blend !== undefined && isTamed(blend));
  return [
    ...(fluids.includes("R40") ? (["attacks-aluminium"] as const) : []),
    ...(flame ? (["burns"] as const) : []),
    ...(fluids.some((fluid) => fluid === "R40" || poisons(fluid)) ? (["toxic"] as const) : []),
  ];
}

function kindsOf(judged: JudgedFamily): ContentHazard["kind"][] {
  const { kind, id } = judged.family;
  if (kind === "none") return ["unknown"];
  if (kind === "gas") return [];
  return hazardsOfParts(compositionOf(judged), kind === "blend" ? id : undefined);
}

const order: readonly ContentHazard["kind"][] = ["attacks-aluminium", "burns", "toxic", "unknown"];

/** Hazards of everything that is still probable: an unknown is treated as the worst of them. */
export function hazardsOf({ families }: Posterior): ContentHazard[] {
  const found = new Map<ContentHazard["kind"], JudgedFamily[]>();
  for (const judged of families.filter(({ probability }) => probability >= STILL_PROBABLE)) {
    for (const kind of kindsOf(judged)) found.set(kind, [...(found.get(kind) ?? []), judged]);
  }
  return order.flatMap((kind) => {
    const bringing = found.get(kind);
    if (!bringing) return [];
    const probability = bringing.reduce((sum, each) => sum + each.probability, 0);
    return [
      { kind, probability, families: bringing.map(({ family }) => family.id), says: says[kind] },
    ];
  });
}

/** Hazards of two posteriors of one content, each as the more cautious has it: a forecast clears nothing. */
export function eitherHazards(a: Posterior, b: Posterior): ContentHazard[] {
  const found = [...hazardsOf(a), ...hazardsOf(b)];
  return order.flatMap((kind) => {
    const [first, second] = found.filter((each) => each.kind === kind);
    if (!first) return [];
    return [second && second.probability > first.probability ? second : first];
  });
}
