import { z } from "zod";
import published from "../../../data/facts/contents.json";
import { blendInfo, type FluidId, fluidIds, isFluidId, namedBlends } from "../../fluids/index.ts";

/** What kind of guess a family is. */
export type FamilyKind =
  "pure" | "blend" | "hydrocarbons" | "contaminated" | "counterfeit" | "gas" | "none";

/** A part of a family: how compositions are spread in it. */
export interface Cell {
  /** Share of the family's prior. */
  readonly weight: number;
  /** Coordinates of the unit cube that the composition takes. */
  readonly dimensions: number;
  /** The fluids that may be there; those of the family if left out. */
  readonly among?: readonly FluidId[];
  /** Mass fractions in the order of the family's fluids, from a point of the unit cube. */
  readonly place: (u: Float64Array, into: Float64Array) => void;
}

/** One hypothesis about what is inside. */
export interface Family {
  readonly id: string;
  /** As a sentence calls it. */
  readonly title: string;
  readonly kind: FamilyKind;
  /** Before any reading; all families together 1. */
  readonly prior: number;
  readonly fluids: readonly FluidId[];
  readonly cells: readonly Cell[];
  /** Fractions (mass) around which properties are taken as fixed; missing where they are fitted over all. */
  readonly center?: readonly number[];
  readonly source: string;
}

const fluidId = z.string().refine(isFluidId);
const cellSchema = z.union([
  z.strictObject({ weight: z.number(), even: z.array(fluidId).min(2) }),
  z.strictObject({ weight: z.number(), trace: fluidId, from: z.number(), to: z.number() }),
]);
const weights = z.record(z.string(), z.number());
const weighted = z.strictObject({ weight: z.number(), source: z.string() });
const fileSchema = z.strictObject({
  schema: z.literal(1),
  about: z.string(),
  sources: z.record(z.string(), z.string()),
  labelTrust: z.number(),
  pure: z.strictObject({ eachOther: z.number(), weights }),
  notLiquid: z.array(fluidId),
  blends: z.strictObject({ eachOther: z.number(), tolerance: z.number(), weights }),
  mixtures: z.array(
    z.strictObject({
      id: z.string(),
      title: z.string(),
      kind: z.enum(["hydrocarbons", "contaminated", "counterfeit"]),
      weight: z.number(),
      source: z.string(),
      fluids: z.array(fluidId),
      cells: z.array(cellSchema),
    }),
  ),
  gas: weighted,
  none: weighted,
  bursts: z.strictObject({ can: z.number(), vehicle: z.number(), unit: z.literal("Pa") }),
});
const file = fileSchema.parse(published);

/** How far a label is believed before any reading. */
export const labelTrust = file.labelTrust;

/** Pa: a vessel with more inside is not there any more. It bounds air, whose pressure has no other end. */
export const burstPressure: Readonly<Record<"can" | "vehicle", number>> = file.bursts;

const sourceOf = (key: string): string => file.sources[key] ?? key;

const single: Cell = {
  weight: 1,
  dimensions: 0,
  place: (_u, into) => {
    into[0] = 1;
  },
};

const pureFamilies = (): Family[] =>
  fluidIds
    .filter((id) => !file.notLiquid.includes(id))
    .map((id) => ({
      id,
      title: id,
      kind: "pure" as const,
      prior: file.pure.weights[id] ?? file.pure.eachOther,
      fluids: [id],
      cells: [single],
      source: sourceOf("judgement"),
    }));

/** A blend as listed, each part within the tolerance of its making. */
function blendCell(nominal: readonly number[]): Cell {
  const { tolerance } = file.blends;
  return {
    weight: 1,
    dimensions: nominal.length - 1,
    place(u, into) {
      let sum = 0;
      for (const [i, share] of nominal.entries()) {
        // No part may vanish: small ones vary by half of themselves at most.
        const room = Math.min(tolerance, share / 2);
        const value = i < nominal.length - 1 ? share + room * (2 * (u[i] ?? 0.5) - 1) : share;
        into[i] = value;
        sum += value;
      }
      for (let i = 0; i < nominal.length; i++) into[i] = (into[i] ?? 0) / sum;
    },
  };
}

const blendFamilies = (): Family[] =>
  namedBlends.map(({ name }) => {
    const shares = blendInfo(name)?.shares ?? [];
    const nominal = shares.map(({ mass }) => mass);
    return {
      id: name,
      title: name,
      kind: "blend" as const,
      prior: file.blends.weights[name] ?? file.blends.eachOther,
      fluids: shares.map(({ fluid }) => fluid),
      cells: [blendCell(nominal)],
      center: nominal,
      source: sourceOf("judgement"),
    };
  });

/** Ethane beyond this mass fraction bursts cans; the properties are fitted up to it. */
export const MOST_ETHANE = 0.3;

/** Every division of the whole among some fluids equally probable. */
function evenCell(weight: number, among: readonly FluidId[], fluids: readonly FluidId[]): Cell {
  const places = among.map((id) => fluids.indexOf(id));
  const ethane = among.indexOf("R170");
  return {
    weight,
    dimensions: among.length - 1,
    among,
    place(u, into) {
      into.fill(0);
      let left = 1;
      for (const [k, at] of places.entries()) {
        const after = among.length - 1 - k;
        const share = after === 0 ? left : left * (1 - (1 - (u[k] ?? 0.5)) ** (1 / after));
        const kept = k === ethane ? share * MOST_ETHANE : share;
        into[at] = kept;
        left -= kept;
      }
    },
  };
}

/** A trace in the first fluid: every ratio of its fraction equally probable. */
function traceCell(
  { weight, trace, from, to }: { weight: number; trace: FluidId; from: number; to: number },
  fluids: readonly FluidId[],
): Cell {
  const at = fluids.indexOf(trace);
  return {
    weight,
    dimensions: 1,
    among: [...fluids.slice(0, 1), trace],
    place(u, into) {
      into.fill(0);
      const fraction = from * (to / from) ** (u[0] ?? 0.5);
      into[at] = fraction;
      into[0] = 1 - fraction;
    },
  };
}

const mixtureFamilies = (): Family[] =>
  file.mixtures.map(({ weight, cells, source, ...rest }) => ({
    ...rest,
    prior: weight,
    cells: cells.map((cell) =>
      "even" in cell ? evenCell(cell.weight, cell.even, rest.fluids) : traceCell(cell, rest.fluids),
    ),
    source: sourceOf(source),
  }));

const special = (): Family[] => [
  {
    id: "gas",
    title: "compressed gas without liquid",
    kind: "gas",
    prior: file.gas.weight,
    fluids: [],
    cells: [{ ...single, dimensions: 1 }],
    source: sourceOf(file.gas.source),
  },
  {
    id: "none",
    title: "none of these",
    kind: "none",
    prior: file.none.weight,
    fluids: [],
    cells: [{ ...single, dimensions: 4 }],
    source: sourceOf(file.none.source),
  },
];

function normalised(families: readonly Family[]): readonly Family[] {
  const sum = families.reduce((total, { prior }) => total + prior, 0);
  return families.map((family) => ({ ...family, prior: family.prior / sum }));
}

/** Everything that a can is thought to hold, with prior probabilities that sum to 1. */
export const families: readonly Family[] = normalised([
  ...pureFamilies(),
  ...blendFamilies(),
  ...mixtureFamilies(),
  ...special(),
]);

/** The family of this id; a fluid or a named blend has its own name. */
export const findFamily = (id: string): Family | undefined =>
  families.find((family) => family.id === id);
