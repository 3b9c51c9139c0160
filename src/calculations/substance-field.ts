import type { FluidId } from "../fluids/index.ts";
import { type NamedBlend, type Part, toMass, toMoles } from "../service/index.ts";
import { invalidInput, type InvalidInput, issue } from "./answer.ts";
import { blendField, type BlendValue, findBlend } from "./blend-field.ts";
import { type Field, optional, unusable } from "./field.ts";
import { fluidField, fluidSource } from "./fluid-field.ts";

/** What a question is about: a pure fluid or a blend. */
export interface Substance {
  readonly kind: "substance";
  /** As a sentence calls it: "R134a", "R441A", "R134a/R290 (70/30 % by mass)". */
  readonly name: string;
  /** Set for a pure fluid. */
  readonly pure: FluidId | undefined;
  /** Set for a blend that was asked for by name. */
  readonly named: NamedBlend | undefined;
  /** Mass fractions in the order given, sum 1; of a pure fluid one part. */
  readonly mass: readonly Part[];
  /** Mole fractions in the same order. */
  readonly moles: readonly Part[];
}

const pureField: Field<FluidId> = {
  ...fluidField,
  read(raw, name, air) {
    const blend = typeof raw === "string" ? findBlend(raw) : undefined;
    return blend
      ? unusable(name, raw, `a pure fluid; ${blend.blend} is a blend and goes into "blend"`)
      : fluidField.read(raw, name, air);
  },
};

/** The two fields of every calculation that takes a fluid or a blend; read them with {@link substanceOf}. */
export const substanceFields = {
  fluid: optional(pureField),
  blend: optional(blendField),
} as const;

/** Three digits tell the parts of any blend; the answer carries the exact ones. */
const percent = ({ fraction }: Part): string => String(Number((100 * fraction).toPrecision(3)));

const nameOf = (parts: readonly Part[], basis: "mass" | "mole"): string =>
  `${parts.map(({ fluid }) => fluid).join("/")} (${parts.map(percent).join("/")} % by ${basis})`;

/** A pure fluid as a substance. */
function pureSubstance(fluid: FluidId): Substance {
  const whole = [{ fluid, fraction: 1 }];
  return {
    kind: "substance",
    name: fluid,
    pure: fluid,
    named: undefined,
    mass: whole,
    moles: whole,
  };
}

function blendSubstance(value: BlendValue): Substance {
  if (value.kind === "named") {
    const { blend } = value;
    return {
      kind: "substance",
      name: blend.blend,
      pure: undefined,
      named: blend,
      mass: blend.parts,
      moles: toMoles(blend.parts),
    };
  }
  const { basis, parts } = value;
  const byMass = basis === "mass";
  return {
    kind: "substance",
    name: nameOf(parts, basis),
    pure: undefined,
    named: undefined,
    mass: byMass ? parts : toMass(parts),
    moles: byMass ? toMoles(parts) : parts,
  };
}

/**
 * The substance that a question names: exactly one of `fluid` and `blend`.
 *
 * @param values Read values of {@link substanceFields}.
 */
export function substanceOf(values: {
  readonly fluid: FluidId | undefined;
  readonly blend: BlendValue | undefined;
}): Substance | InvalidInput {
  const { fluid, blend } = values;
  if ((fluid === undefined) === (blend === undefined)) {
    const what = fluid === undefined ? "neither fluid nor blend" : "both fluid and blend";
    return invalidInput(issue("fluid", what, "either fluid or blend"));
  }
  if (fluid !== undefined) return pureSubstance(fluid);
  if (blend !== undefined) return blendSubstance(blend);
  throw new Error("unreachable: one of both is given");
}

/** Where the fractions of a named blend come from; nothing for others. */
export const compositionSources = ({ named }: Substance): readonly string[] =>
  named ? [`${named.blend}: ${named.composition.source}`] : [];

/** Equations of all parts, and the source of a named blend's fractions. */
export const substanceSources = (substance: Substance): readonly string[] => [
  ...compositionSources(substance),
  ...substance.mass.map(({ fluid }) => fluidSource(fluid)),
];
