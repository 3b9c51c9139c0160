import { z } from "zod";
import published from "../../../data/facts/blends.json";
import { type FluidId, isFluidId } from "../../fluids/index.ts";
import { massParts, type Part } from "./composition.ts";
import { amountFact, classFact, type Fact, factOf, type SafetyClass, sourced } from "./fact.ts";

/** A blend with a name: what it is made of and how it is classed. */
export interface NamedBlend {
  readonly blend: string;
  /** Missing where no table lists the blend. */
  readonly class?: Fact<SafetyClass> | undefined;
  /** The class that an unlisted blend is like, by its parts. */
  readonly behavesAs?: SafetyClass | undefined;
  /** Mass fractions, sum 1. */
  readonly parts: readonly Part[];
  readonly composition: Omit<Fact<unknown>, "value" | "unit">;
  /** Lower flammability limit as listed for the blend: ppm by volume, kg/m3. */
  readonly lfl?: { readonly volume: Fact; readonly mass: Fact } | undefined;
  readonly note: string;
}

const HUNDRED = 100;
const blendSchema = z.strictObject({
  blend: z.string(),
  class: classFact.optional(),
  behavesAs: classFact.shape.value.optional(),
  mass: factOf(z.record(z.string().refine(isFluidId), z.number().positive())),
  lfl: z.strictObject({ volume: amountFact, mass: amountFact }).optional(),
  note: z.string(),
});
const fileSchema = z.strictObject({
  schema: z.literal(1),
  about: z.string(),
  transcribed: z.string(),
  sources: z.record(z.string(), z.string()),
  blends: z.array(blendSchema),
});
const file = fileSchema.parse(published);

function read({ mass, class: safety, lfl, ...rest }: z.infer<typeof blendSchema>): NamedBlend {
  const { value, source, trust } = sourced(mass, file.sources);
  const percents = Object.entries(value) as [FluidId, number][];
  return {
    ...rest,
    ...(safety && { class: sourced(safety, file.sources) }),
    ...(lfl && {
      lfl: { volume: sourced(lfl.volume, file.sources), mass: sourced(lfl.mass, file.sources) },
    }),
    parts: massParts(percents.map(([fluid, percent]) => ({ fluid, fraction: percent / HUNDRED }))),
    composition: { source, trust },
  };
}

/** The blends that are known by name. */
export const namedBlends: readonly NamedBlend[] = file.blends.map(read);
