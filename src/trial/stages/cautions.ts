import { z } from "zod";
import data from "../../../data/facts/cautions.json";
import { formatQuantity } from "../../units/index.ts";
import { type Stage, stages } from "../events.ts";
import type { ProductView, VehicleView } from "../view.ts";
import { mayBurn, type Treatment, treatmentSentence, unweighed } from "./treatment.ts";
import type { Caution } from "./view.ts";

const number = z.object({
  value: z.number(),
  unit: z.string(),
  what: z.string(),
  source: z.string(),
});
const schema = z.object({
  schema: z.literal(1),
  numbers: z.object({ lflLowest: number, warnFraction: number }),
  cautions: z.array(
    z.object({
      id: z.string(),
      stages: z.array(z.enum(stages)).min(1),
      when: z.enum(["always", "flammable", "unproven"]),
      severity: z.enum(["danger", "caution"]),
      lead: z.string(),
      text: z.string(),
      reason: z.string(),
      source: z.string(),
    }),
  ),
});
const { cautions, numbers } = schema.parse(data);

/** What the numbers of cautions rest on. */
interface Handling {
  readonly vehicle: VehicleView | undefined;
  /** What products are handled as, where that was weighed; else the worst that a can may hold. */
  readonly treated: ReadonlyMap<string, Treatment> | undefined;
}

/**
 * Cautions of one stage: those for flammable products only where one is about, and what a can is treated as while
 * nothing proves what it holds.
 *
 * @param products Those that the stage handles.
 */
export function cautionsFor(
  stage: Stage,
  products: readonly ProductView[],
  { vehicle, treated }: Handling,
): Caution[] {
  const handled = products.map((product) => ({
    product,
    treatment: treated?.get(product.id) ?? unweighed(product),
  }));
  const burning = handled.flatMap(({ product, treatment }) =>
    product.flammableMark || mayBurn(treatment) ? [product] : [],
  );
  const open = sentences(handled);
  const about = { always: true, flammable: burning.length > 0, unproven: open !== "" };
  return cautions
    .filter((caution) => caution.stages.includes(stage) && about[caution.when])
    .map(({ id, when, severity, lead, text, reason, source }) => ({
      id,
      severity,
      lead,
      text: when === "unproven" ? `${open} ${text}` : text,
      source,
      reason: id === "flammable-charge" ? `${reason} ${cabinNumbers(burning, vehicle)}` : reason,
    }));
}

/** Each different sentence once, with the products that it is about where there are more than one. */
function sentences(
  handled: readonly { readonly product: ProductView; readonly treatment: Treatment }[],
): string {
  const said = new Map<string, string[]>();
  for (const { product, treatment } of handled) {
    const sentence = treatmentSentence(treatment);
    if (sentence !== undefined) said.set(sentence, [...(said.get(sentence) ?? []), product.name]);
  }
  return [...said]
    .map(([sentence, names]) => (said.size > 1 ? `${names.join(", ")}: ${sentence}` : sentence))
    .join(" ");
}

/** The caution's number for this vehicle and these products, or what is missing to say it. */
function cabinNumbers(burning: readonly ProductView[], vehicle: VehicleView | undefined): string {
  const volume = vehicle?.cabinVolume;
  if (volume === undefined) return "Enter the cabin volume to see the number for this vehicle.";
  const lines = burning.flatMap(({ name, labelMass, labelMassTyped }) => {
    if (labelMass === undefined || !labelMassTyped) return [];
    const times = labelMass / volume / numbers.lflLowest.value;
    const mass = formatQuantity(labelMassTyped);
    const cabin = formatQuantity({ value: volume, unit: "m3" });
    return [
      `${mass} of ${name} in ${cabin} would be ${times.toFixed(1)} times that limit, ${(times / numbers.warnFraction.value).toFixed(1)} times the quarter.`,
    ];
  });
  return lines.join(" ") || "Enter the label mass of the product to see the number.";
}
