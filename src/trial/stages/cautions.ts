import { z } from "zod";
import data from "../../../data/facts/cautions.json";
import { formatQuantity } from "../../units/index.ts";
import { type Stage, stages } from "../events.ts";
import type { ProductView, VehicleView } from "../view.ts";
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
      when: z.enum(["always", "flammable"]),
      severity: z.enum(["danger", "caution"]),
      lead: z.string(),
      text: z.string(),
      reason: z.string(),
      source: z.string(),
    }),
  ),
});
const { cautions, numbers } = schema.parse(data);

/** Marked flammable, or silent about what it is: an unknown content counts as flammable. */
export const mayBurn = ({ flammableMark, fluid }: ProductView): boolean =>
  flammableMark || fluid === undefined;

/**
 * Cautions of one stage, those for flammable products only where one is about.
 *
 * @param about  Products that this stage handles.
 */
export function cautionsFor(
  stage: Stage,
  about: readonly ProductView[],
  vehicle: VehicleView | undefined,
): Caution[] {
  const burning = about.filter(mayBurn);
  return cautions
    .filter((caution) => caution.stages.includes(stage))
    .filter(({ when }) => when === "always" || burning.length > 0)
    .map(({ id, severity, lead, text, reason, source }) => ({
      id,
      severity,
      lead,
      text,
      source,
      reason: id === "flammable-charge" ? `${reason} ${cabinNumbers(burning, vehicle)}` : reason,
    }));
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
