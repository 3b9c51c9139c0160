import { z } from "zod";
import { type RandomEffects, randomEffects } from "../inference/index.ts";
import { combinedTrials, parseExport, type TrialEvent } from "../trial/index.ts";
import { issue, type Issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { COMPARISON_SOURCES } from "./compare.ts";
import { defineCalculation } from "./definition.ts";
import { type Field, optional, unusable } from "./field.ts";

const mostTrials = 20;
const mostEffects = 200;
const mostIssues = 40;

const trialsField: Field<readonly (readonly TrialEvent[])[]> = {
  schema: z
    .array(z.record(z.string(), z.unknown()))
    .max(mostTrials)
    .describe(`Trials as they are exported, 2 to ${mostTrials}`),
  required: true,
  read(raw, name) {
    const list = Array.isArray(raw) ? (raw as readonly unknown[]) : [];
    if (list.length < 2) return unusable(name, list.length, "two trials or more");
    const issues: Issue[] = [];
    const value = list.flatMap((one, i) => {
      const parsed = parseExport(one);
      if (parsed.kind === "export") return [parsed.events];
      for (const { field, value: found, accepted } of parsed.issues) {
        issues.push(issue(`${name}.${i}.${field}`, found, accepted));
      }
      return [];
    });
    return issues.length > 0
      ? { kind: "unusable", issues: issues.slice(0, mostIssues) }
      : { kind: "value", value };
  },
};

const LARGEST = 1e9;
const effectSchema = z.strictObject({
  name: z.string().min(1).max(120),
  effect: z.number().min(-LARGEST).max(LARGEST),
  u: z.number().min(1e-9).max(LARGEST).describe("Standard uncertainty"),
});
const effectsSchema = z.array(effectSchema).min(2).max(mostEffects);

const effectsField: Field<readonly z.infer<typeof effectSchema>[]> = {
  schema: z.array(effectSchema).max(mostEffects).describe("Effects of one unit instead of trials"),
  required: true,
  read(raw, name) {
    const parsed = effectsSchema.safeParse(raw);
    return parsed.success
      ? { kind: "value", value: parsed.data }
      : unusable(
          name,
          Array.isArray(raw) ? raw.length : raw,
          "two effects or more, each with u > 0",
        );
  },
};

const interval = z.strictObject({ from: z.number(), to: z.number() });
const summarySchema = z.strictObject({
  mean: z.number(),
  se: z.number().describe("Standard error of the mean"),
  interval: interval.describe("95 % of the mean"),
  tau: z.number().describe("Standard deviation between trials beyond their own uncertainty"),
  heterogeneity: z.number().describe("Share of the scatter that is between trials, 0 to 1"),
  Q: z.number(),
  pHomogeneous: z.number().describe("Chance of a larger Q if all trials had one effect"),
  prediction: interval.optional().describe("95 % for one more trial; from three on"),
});
const output = z.strictObject({
  groups: z.array(
    z.strictObject({
      product: z.string(),
      label: z.string().describe("Label refrigerant"),
      condition: z.string(),
      form: z.string(),
      trials: z.array(
        z.strictObject({
          name: z.string(),
          vehicle: z.string().optional(),
          effect: z.number(),
          u: z.number(),
          weight: z.number().optional().describe("Share in the mean"),
        }),
      ),
      summary: summarySchema.optional(),
      verdict: z
        .enum(["equivalent", "colder", "warmer", "lower", "higher", "undecided"])
        .optional(),
    }),
  ),
  leftOut: z.array(z.string()),
});
/** What the calculation gives back, for screens. */
export type CombinedResult = z.infer<typeof output>;

const ASSUMED = [
  "Trials are taken as independent: vehicles, instruments and testers that two of them share make the interval too narrow.",
  "Effects of trials scatter about a mean like a normal variable; from few trials nothing can show that.",
];

export const combineTrialsCalculation = defineCalculation({
  name: "combine-trials",
  title: "Several trials of one product together: mean effect and how much trials differ",
  fields: { trials: optional(trialsField), effects: optional(effectsField) },
  output,
  cautions: [cautions.identity, cautions.rules],
  sources: [
    "Between-trial variance: Paule and Mandel, J. Res. NBS 87 (1982) 377; interval: Hartung and Knapp, Stat. Med. 20 (2001) 3875; prediction: Higgins, Thompson and Spiegelhalter, J. R. Stat. Soc. A 172 (2009) 137",
    ...COMPARISON_SOURCES,
  ],
  run({ trials, effects }) {
    if ((trials === undefined) === (effects === undefined)) {
      return { kind: "invalid", issues: [issue("trials", undefined, "either trials or effects")] };
    }
    const result = effects ? ofEffects(effects) : ofTrials(trials ?? []);
    if (result.groups.length === 0) {
      const message = `No trial compares a product in equal conditions. ${result.leftOut.join(" ")}`;
      return { kind: "no-answer", reason: "no-solution", message, numbers: {} };
    }
    return { kind: "answer", result, assumptions: ASSUMED };
  },
});

function summaryOf(all: RandomEffects): z.infer<typeof summarySchema> {
  const { mean, se, interval: of, tau, heterogeneity, Q, pHomogeneous, prediction } = all;
  const found = { mean, se, interval: of, tau, heterogeneity, Q, pHomogeneous };
  return prediction ? { ...found, prediction } : found;
}

function ofEffects(effects: readonly z.infer<typeof effectSchema>[]): CombinedResult {
  const summary = randomEffects(effects);
  const trials = effects.map((one, i) => ({ ...one, weight: summary.weights[i] ?? 0 }));
  const group = { product: "", label: "", condition: "", form: "", trials };
  return { groups: [{ ...group, summary: summaryOf(summary) }], leftOut: [] };
}

function ofTrials(logs: readonly (readonly TrialEvent[])[]): CombinedResult {
  const { groups, leftOut } = combinedTrials(logs);
  return {
    groups: groups.map(({ trials, summary, ...group }) => ({
      ...group,
      trials: trials.map(({ title, vehicle, effect, u }, i) => ({
        ...{ name: title, effect, u },
        ...(vehicle !== undefined && { vehicle }),
        ...(summary && { weight: summary.weights[i] ?? 0 }),
      })),
      ...(summary && { summary: summaryOf(summary) }),
    })),
    leftOut: [...leftOut],
  };
}
