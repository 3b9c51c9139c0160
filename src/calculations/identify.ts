import { z } from "zod";
import { type Contents, type Evidence, identify } from "../evidence/index.ts";
import { cautions } from "./cautions.ts";
import { evidenceField, priorField } from "./contents-field.ts";
import { defineCalculation } from "./definition.ts";
import { count, optional } from "./field.ts";

const part = z.strictObject({
  fluid: z.string(),
  mean: z.number(),
  from: z.number(),
  to: z.number(),
});
const output = z.strictObject({
  verdict: z.enum(["named", "undecided", "none-explains"]),
  says: z.string(),
  families: z
    .array(
      z.strictObject({
        id: z.string(),
        title: z.string(),
        kind: z.enum([
          "pure",
          "blend",
          "hydrocarbons",
          "contaminated",
          "counterfeit",
          "gas",
          "none",
        ]),
        prior: z.number(),
        probability: z.number(),
        source: z.string(),
      }),
    )
    .describe("Most probable first; those under 1 in 2000 are left out"),
  compositions: z
    .array(z.strictObject({ family: z.string(), parts: z.array(part) }))
    .describe("Mass fractions with 95 % intervals, if the family is the right one"),
  overall: z
    .array(part)
    .describe("The same over all probable families together, each by its probability"),
  contributions: z
    .array(
      z.strictObject({
        evidence: z.int(),
        logRatio: z.number(),
        without: z.strictObject({ family: z.string(), probability: z.number() }),
        says: z.string(),
      }),
    )
    .describe(
      "For each piece of evidence, ln of the factor by which it moves the odds of the leading family and those that fit as well",
    ),
  runs: z
    .strictObject({
      without: z.strictObject({
        family: z.string(),
        title: z.string(),
        probability: z.number(),
        overall: z.array(part),
      }),
      notRun: z.array(z.string()),
      says: z.string(),
    })
    .optional()
    .describe(
      "Where runs of a vehicle were weighed: the leading family without them, on which alone a name rests, and probable families that the vehicle's model could not run",
    ),
  withoutLabel: z
    .strictObject({ family: z.string(), title: z.string(), probability: z.number() })
    .optional()
    .describe("Where a label was weighed: what leads without it. No name rests on a label"),
  indistinguishable: z.strictObject({ families: z.array(z.string()), says: z.string() }),
  hazards: z.array(
    z.strictObject({
      kind: z.enum(["burns", "toxic", "attacks-aluminium", "unknown"]),
      probability: z.number(),
      families: z.array(z.string()),
      says: z.string(),
    }),
  ),
  next: z
    .array(
      z.strictObject({
        id: z.string(),
        title: z.string(),
        says: z.string(),
        minutes: z.number(),
        information: z.number().describe("Expected, bit"),
        share: z.number().describe("Of what is still open"),
        perHour: z.number().describe("bit/h"),
      }),
    )
    .describe("Measurements not yet taken, by expected information for their time"),
  fit: z.strictObject({ misfit: z.number(), measured: z.int(), chance: z.number() }),
});
/** The answer of `identify`. */
export type IdentifyResult = z.infer<typeof output>;

/** Copies what is read-only into what a schema describes. */
const resultOf = (contents: Contents): IdentifyResult =>
  // The answer is plain data: a copy through JSON is the same, and nobody can change the original.
  JSON.parse(JSON.stringify(contents)) as IdentifyResult;

const assumptionsOf = (evidence: readonly Evidence[]): string[] => [
  ...(evidence.some(({ kind }) => kind === "pressure")
    ? ["Each pressure was read at rest, with liquid inside, all of it at the temperature given."]
    : []),
  ...(evidence.some((each) => each.kind === "fill" && each.full)
    ? [
        "A full can is taken to be 76 ± 16 % liquid by volume at 20 °C (common practice, no source).",
      ]
    : []),
  ...(evidence.some(({ kind }) => kind === "identifier")
    ? [
        "An identifier is taken to tell R134a, R1234yf, R12, R22, hydrocarbons and air to 2 %; whatever else is inside turns up under any of these names.",
      ]
    : []),
  ...(evidence.some(({ kind }) => kind === "running")
    ? [
        "What a vehicle should read on a content is a model's word: it may be 2 psi low, 6 psi high and 1 K vent off on another fluid (more for blends that boil over a range and for starved systems), and one run in ten is taken to say nothing. No name rests on it.",
      ]
    : []),
  "Prior weights are a judgement (common practice, no source); they decide only where the readings do not.",
];

export const identifyCalculation = defineCalculation({
  name: "identify",
  title: "What is in a can or a vehicle: probabilities, compositions, and what to measure next",
  fields: {
    evidence: evidenceField,
    prior: optional(priorField),
    seed: optional(
      count("Start of the sampling; the same seed gives the same answer", { from: 0, to: 1e9 }),
    ),
  },
  output,
  cautions: [cautions.identity, cautions.ports, cautions.flameTest, cautions.rules],
  sources: [
    "Bayes' rule over families of contents; evidence by quasi-random importance sampling",
    "Bubble pressures, liquid densities and the balance of liquid and vapour from the equations of state",
    "Expected information: Lindley, Ann. Math. Stat. 27 (1956) 986",
  ],
  run({ evidence, prior, seed }) {
    const contents = identify(evidence, {
      ...(prior && { prior }),
      ...(seed !== undefined && { seed }),
    });
    return {
      kind: "answer",
      result: resultOf(contents),
      cautions: contents.hazards.map(({ says }) => says),
      assumptions: assumptionsOf(evidence),
    };
  },
});
