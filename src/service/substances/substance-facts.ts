import { z } from "zod";
import published from "../../../data/facts/substances.json";
import { type FluidId, isFluidId } from "../../fluids/index.ts";
import { amountFact, classFact, type Fact, type SafetyClass, sourced } from "./fact.ts";

/** Reports of the IPCC whose global warming potentials are in use. */
export const editions = ["AR4", "AR5", "AR6"] as const;
export type Edition = (typeof editions)[number];

/** What a molecule is to a flame. */
const families = [
  "hydrocarbon",
  "ether",
  "fluoroalkane",
  "fluoroolefin",
  "chlorinated",
  "iodinated",
  "inorganic",
] as const;
export type Family = (typeof families)[number];

/** A concentration in air at 25 °C and 101.325 kPa: ppm by volume, kg/m3. */
export interface Concentration {
  readonly volume?: Fact | undefined;
  readonly mass: Fact;
}

/** Facts of one pure fluid; what is missing has no value that is known here. */
export interface SubstanceFacts {
  readonly fluid: FluidId;
  readonly family: Family;
  readonly class?: Fact<SafetyClass> | undefined;
  /** Lower flammability limit, by the table it stands in; missing for what does not burn. */
  readonly lfl?:
    | {
        readonly ashrae?: Concentration | undefined;
        readonly isoEn?: Concentration | undefined;
        readonly other?: Concentration | undefined;
      }
    | undefined;
  /** Upper flammability limit, % by volume. */
  readonly ufl?: Fact | undefined;
  /** Refrigerant concentration limit of occupied rooms. */
  readonly rcl?: Concentration | undefined;
  /** Acute-toxicity exposure limit, ppm by volume. */
  readonly atel?: Fact | undefined;
  /** Ozone depletion potential, R11 = 1. */
  readonly odp?: Fact | undefined;
  /** Global warming potential over 100 years, kg CO2 per kg. */
  readonly gwp100: Readonly<Partial<Record<Edition, Fact | undefined>>>;
  readonly note?: string | undefined;
}

const concentration = z.strictObject({ volume: amountFact.optional(), mass: amountFact });
const substance = z.strictObject({
  fluid: z.string().refine(isFluidId),
  family: z.enum(families),
  class: classFact.optional(),
  lfl: z
    .strictObject({
      ashrae: concentration.optional(),
      isoEn: concentration.optional(),
      other: concentration.optional(),
    })
    .optional(),
  ufl: amountFact.optional(),
  rcl: concentration.optional(),
  atel: amountFact.optional(),
  odp: amountFact.optional(),
  gwp100: z.strictObject({
    AR4: amountFact.optional(),
    AR5: amountFact.optional(),
    AR6: amountFact.optional(),
  }),
  note: z.string().optional(),
});
const fileSchema = z.strictObject({
  schema: z.literal(1),
  about: z.string(),
  transcribed: z.string(),
  sources: z.record(z.string(), z.string()),
  substances: z.array(substance),
});

/** Replaces source keys by words in every fact below a node. */
function inFull<Node>(node: Node, sources: Readonly<Record<string, string>>): Node {
  if (typeof node !== "object" || node === null) return node;
  if ("trust" in node && "source" in node && typeof node.source === "string") {
    return sourced(node as Node & { source: string }, sources);
  }
  const entries = Object.entries(node).map(([key, inner]: [string, unknown]): [string, unknown] => [
    key,
    inFull(inner, sources),
  ]);
  return Object.fromEntries(entries) as Node;
}

const file = fileSchema.parse(published);
const byFluid: ReadonlyMap<FluidId, SubstanceFacts> = new Map(
  file.substances.map((facts): [FluidId, SubstanceFacts] => {
    const full = inFull(facts, file.sources);
    return [full.fluid, full];
  }),
);

/**
 * Safety and climate facts of a fluid.
 * @throws RangeError if the file has none: its completeness is tested.
 */
export function substanceFacts(fluid: FluidId): SubstanceFacts {
  const facts = byFluid.get(fluid);
  if (!facts) throw new RangeError(`no facts of ${fluid}`);
  return facts;
}
