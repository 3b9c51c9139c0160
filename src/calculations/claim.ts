import { z } from "zod";
import { COVERAGE } from "../service/index.ts";
import {
  type ClaimContext,
  type ClaimEffect,
  claimKinds,
  type ClaimReading,
  judgeClaim,
  knownSubstance,
  readClaim,
  substanceOfMoles,
} from "../trial/index.ts";
import { invalidInput, issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { effectField, type EffectValue } from "./claim-effects.ts";
import { flag, textField } from "./claim-fields.ts";
import { defineCalculation } from "./definition.ts";
import { choice, optional, quantity } from "./field.ts";
import { figure } from "./figure-field.ts";
import { findBlend } from "./blend-field.ts";
import { findFluid } from "./fluid-field.ts";
import { type Substance, substanceFields, substanceOf } from "./substance-field.ts";

const MASS = { from: 1e-6, to: 1e3 };

const fields = {
  text: optional(textField("The sentence as it stands on the label", 300)),
  kind: optional(
    choice("What it is tested as; read from the text by rules if left out", claimKinds),
  ),
  ...substanceFields,
  label: optional(textField("What the product is called", 120)),
  mass: optional(quantity("mass", "Mass of the product that the claim speaks of", MASS)),
  equals: optional(quantity("mass", "Mass that it is said to equal", MASS)),
  of: optional(textField("Of which refrigerant, or what it is said to contain", 24)),
  limit: optional(
    figure("Global warming potential that is not to be passed", "kg/kg", { from: 0, to: 1e5 }),
  ),
  reference: optional(textField("Label refrigerant of the vehicle; R134a if left out", 24)),
  flammableMark: optional(flag("The can carries a mark for flammable contents")),
  declaredOnly: optional(
    flag(
      "The composition is only what the label declares: it can contradict the label, not support it",
    ),
  ),
  trial: optional(
    effectField(
      "Differences that a trial found, product minus label refrigerant: as measured, or carried to equal conditions",
    ),
  ),
} as const;

const output = z.strictObject({
  name: z.string().nullable().describe("What the product is taken as"),
  verdict: z
    .enum(["supported", "contradicted", "undecided"])
    .describe("Of all statements: contradicted if one is, supported if all are"),
  statements: z.array(
    z.strictObject({
      kind: z.enum(claimKinds),
      statement: z.string().describe("The sentence as it is tested"),
      verdict: z.enum(["supported", "contradicted", "undecided"]),
      because: z.string(),
      evidence: z.array(
        z.strictObject({
          from: z.enum(["trial", "physics", "label"]),
          text: z.string(),
          source: z.string().optional(),
        }),
      ),
      method: z.string(),
      wouldDecide: z.string().optional().describe("Of an undecided one"),
    }),
  ),
});
type Result = z.infer<typeof output>;

const effectOf = ({ effect, lower, upper, u, ...rest }: EffectValue): ClaimEffect => {
  const reach = COVERAGE * (u ?? 0);
  const { unequal, ...what } = rest;
  return {
    ...what,
    effect,
    lower: lower ?? effect - reach,
    upper: upper ?? effect + reach,
    ...(unequal !== undefined && { unequal }),
  };
};

/** A refrigerant by any spelling. */
const findAny = (name: string): ReturnType<typeof knownSubstance> =>
  knownSubstance(findFluid(name) ?? findBlend(name)?.blend ?? name);

const overall = (verdicts: readonly Result["verdict"][]): Result["verdict"] => {
  if (verdicts.includes("contradicted")) return "contradicted";
  return verdicts.every((one) => one === "supported") ? "supported" : "undecided";
};

export const claim = defineCalculation({
  name: "claim",
  title: "Whether a sentence of a label is supported, contradicted or undecided",
  fields,
  output,
  cautions: [cautions.identity, cautions.rules],
  sources: ["Rules of docs/models/claims.md"],
  run(values) {
    const { text, kind, fluid, blend, reference = "R134a" } = values;
    if (text === undefined && kind === undefined) {
      return invalidInput(issue("text", undefined, "the sentence, or the kind of claim"));
    }
    const referenced = findAny(reference);
    if (!referenced) {
      return invalidInput(issue("reference", reference, "a fluid or blend that is known by name"));
    }
    const any = fluid !== undefined || blend !== undefined;
    const substance = any ? substanceOf({ fluid, blend }) : undefined;
    if (substance?.kind === "invalid") return substance;
    const readings = readingsOf(values, text, kind);
    const context: ClaimContext = {
      product: {
        name: values.label ?? substance?.name ?? "the product",
        substance: substance && known(substance),
        identity: !substance ? "unknown" : values.declaredOnly === true ? "declared" : "given",
        labelMass: values.mass,
        flammableMark: values.flammableMark ?? false,
      },
      reference: referenced,
      effects: (values.trial ?? []).map(effectOf),
      cans: [],
      tests: [],
      find: findAny,
    };
    const statements = readings.map((reading) => ({
      kind: reading.kind,
      ...judgeClaim(reading, context),
    }));
    return {
      kind: "answer",
      result: {
        name: substance?.name ?? null,
        verdict: overall(statements.map(({ verdict }) => verdict)),
        statements: statements.map(({ evidence, ...rest }) => ({
          ...rest,
          evidence: [...evidence],
        })),
      },
      sources: [
        ...new Set(
          statements.flatMap(({ evidence }) => evidence.flatMap((one) => one.source ?? [])),
        ),
      ],
    };
  },
});

const known = ({ name, moles, named }: Substance) => substanceOfMoles(name, moles, named);

type Given = Pick<ClaimReading, "mass" | "equals" | "of" | "limit"> & { readonly pure?: boolean };

/** By rules on the words, or of the kind asked for; what is given apart counts before what the text says. */
function readingsOf(
  values: { readonly [K in keyof Given]?: Given[K] | undefined },
  text: string | undefined,
  kind: ClaimReading["kind"] | undefined,
): readonly ClaimReading[] {
  const read = text === undefined ? [] : readClaim(text);
  const chosen = kind === undefined ? read : [read.find((one) => one.kind === kind) ?? { kind }];
  const { mass, equals, of, limit } = values;
  const given = {
    ...(equals !== undefined && { equals }),
    ...(of !== undefined && { of: findFluid(of) ?? findBlend(of)?.blend ?? of }),
    ...(limit !== undefined && { limit }),
  };
  return chosen.map((one) => ({ ...(mass !== undefined && { mass }), ...one, ...given }));
}
