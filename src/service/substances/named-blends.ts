import { z } from "zod";
import published from "../../../data/facts/blends.json";
import { type BlendInfo, namedBlends } from "../../fluids/index.ts";
import { massParts, type Part } from "./composition.ts";
import {
  amountFact,
  classFact,
  type Fact,
  type SafetyClass,
  sourced,
  type Trust,
  trusts,
} from "./fact.ts";

/** A blend with a name: what it is made of and how it is classed. */
export interface NamedBlend {
  readonly blend: string;
  /** Missing where no table lists the blend. */
  readonly class?: Fact<SafetyClass> | undefined;
  /** The class that an unlisted blend is like, by its parts. */
  readonly behavesAs?: SafetyClass | undefined;
  /** Mass fractions, sum 1. */
  readonly parts: readonly Part[];
  readonly composition: { readonly source: string; readonly trust: Trust };
  /** Lower flammability limit as listed for the blend: ppm by volume, kg/m3. */
  readonly lfl?: { readonly volume: Fact; readonly mass: Fact } | undefined;
  readonly note: string;
}

const blendSchema = z.strictObject({
  blend: z.string(),
  class: classFact.optional(),
  behavesAs: classFact.shape.value.optional(),
  composition: z.enum(trusts),
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
const infos: ReadonlyMap<string, BlendInfo> = new Map(namedBlends.map((info) => [info.name, info]));

/** @throws RangeError for a blend whose fractions are not known to the fluids. */
function rate({
  class: safety,
  lfl,
  composition,
  ...rest
}: z.infer<typeof blendSchema>): NamedBlend {
  const info = infos.get(rest.blend);
  if (!info) throw new RangeError(`no composition of ${rest.blend}`);
  return {
    ...rest,
    ...(safety && { class: sourced(safety, file.sources) }),
    ...(lfl && {
      lfl: { volume: sourced(lfl.volume, file.sources), mass: sourced(lfl.mass, file.sources) },
    }),
    parts: massParts(info.shares.map(({ fluid, mass }) => ({ fluid, fraction: mass }))),
    composition: { source: info.source, trust: composition },
  };
}

/** The blends that are known by name, with what is known of them. */
export const ratedBlends: readonly NamedBlend[] = file.blends.map(rate);
