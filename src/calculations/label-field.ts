import { z } from "zod";
import { blendField, findBlend } from "./blend-field.ts";
import { type Field, quantity, unusable } from "./field.ts";
import { fluidField } from "./fluid-field.ts";
import { type Substance, substanceOf } from "./substance-field.ts";
import { invalidInput } from "./answer.ts";

/** What a vehicle's label says. */
export interface LabelValue {
  readonly substance: Substance;
  /** kg */
  readonly charge: number;
}

const chargeField = quantity("mass", "Charge on the label", { from: 1e-3, to: 20 });
const shape = z.strictObject({
  fluid: fluidField.schema.optional(),
  blend: blendField.schema.optional(),
  refrigerant: z.string().max(60).optional(),
  charge: z.union([z.number(), z.string().max(80)]),
});

/** A fluid or a named blend as one word. */
const byWord = (word: string) => (findBlend(word) ? { blend: word } : { fluid: word });

/** The refrigerant and the charge on a vehicle's label. */
export const labelField: Field<LabelValue> = {
  schema: shape.describe(
    'The vehicle\'s label: {refrigerant, charge}, such as {"refrigerant": "R134a", "charge": "620 g"}; the refrigerant may be given as fluid or blend too. A number is kg.',
  ),
  required: true,
  read(raw, name, air) {
    const { refrigerant, charge, ...rest } = shape.parse(raw);
    const asked = refrigerant === undefined ? rest : { ...byWord(refrigerant), ...rest };
    const mass = chargeField.read(charge, `${name}.charge`, air);
    if (mass.kind !== "value") return mass;
    const fluid =
      asked.fluid === undefined ? undefined : fluidField.read(asked.fluid, `${name}.fluid`, air);
    if (fluid && fluid.kind !== "value") return fluid;
    const blend =
      asked.blend === undefined ? undefined : blendField.read(asked.blend, `${name}.blend`, air);
    if (blend && blend.kind !== "value") return blend;
    const substance = substanceOf({ fluid: fluid?.value, blend: blend?.value });
    if (substance.kind === "invalid") {
      const [first] = invalidInput(...substance.issues).issues;
      return unusable(`${name}.${first?.field ?? "fluid"}`, first?.value, first?.accepted ?? "");
    }
    return { kind: "value", value: { substance, charge: mass.value } };
  },
};
