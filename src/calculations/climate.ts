import { z } from "zod";
import {
  climateOf,
  type ClimatePart,
  type ClimateSum,
  type Edition,
  editions,
  ozoneOf,
} from "../service/index.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { factSchema, factView } from "./fact-view.ts";
import { choice, optional, quantity } from "./field.ts";
import { compositionSources, substanceFields, substanceOf } from "./substance-field.ts";

const sum = {
  value: z
    .number()
    .nullable()
    .describe(
      "Sum over mass fractions, the higher end where a table says less than; none if a part has no value",
    ),
  from: z.number().describe("The sum cannot be less: parts without a value count nothing"),
  to: z.number().nullable().describe("The sum cannot be more; none if a part has no value"),
  missing: z.array(z.string()).describe("Parts without a usable value"),
  trust: z
    .enum(["published", "cross-checked", "memory", "shaky"])
    .describe("The weakest mark among the values in the sum"),
};
const output = z.strictObject({
  name: z.string(),
  gwp: z
    .array(
      z.strictObject({
        edition: z.enum(editions).describe("Report of the IPCC"),
        ...sum,
        co2Equivalent: z
          .number()
          .nullable()
          .optional()
          .describe("What the given mass amounts to, kg CO2; none if a part has no value"),
      }),
    )
    .describe("Global warming potential over 100 years, kg CO2 per kg, by edition"),
  ozone: z.strictObject(sum).describe("Ozone depletion potential, R11 = 1"),
  mass: z.number().optional().describe("The mass as given, kg"),
  facts: z.array(factSchema).describe("Values of the parts"),
});

const sumView = ({ value, from, to, missing, trust }: ClimateSum) => ({
  value,
  from,
  to,
  missing: [...missing],
  trust,
});

const partFacts = (what: string, parts: readonly ClimatePart[]) =>
  parts.flatMap(({ fluid, fact }) => factView(fluid, what, fact));

const sourcesOf = (facts: readonly { readonly source: string }[]): readonly string[] => [
  ...new Set(facts.map(({ source }) => source)),
];

/** Sentences that a number alone would hide. */
function assumptionsOf(gwp: readonly { edition: Edition; total: ClimateSum }[]): string[] {
  return gwp.flatMap(({ edition, total }) => [
    ...(total.missing.length > 0
      ? [`${edition} has no value for ${total.missing.join(", ")}: the sum is only a lower bound.`]
      : []),
    ...(total.to !== null && total.to > total.from
      ? [`${edition} says "less than" for a part: the higher end is taken.`]
      : []),
  ]);
}

export const climate = defineCalculation({
  name: "climate",
  title: "Global warming and ozone depletion potential of a fluid or blend",
  fields: {
    ...substanceFields,
    edition: optional(
      choice("Report of the IPCC whose values are taken; all three if left out", editions),
    ),
    mass: optional(quantity("mass", "Mass to express as carbon dioxide", { from: 0, to: 1e9 })),
  },
  output,
  cautions: [cautions.editions, cautions.rules],
  sources: ["The sum over mass fractions: Regulation (EU) 517/2014 annex IV, from memory"],
  run({ fluid, blend, edition, mass }) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const asked = edition === undefined ? editions : [edition];
    const gwp = asked.map((each) => ({ edition: each, total: climateOf(substance.mass, each) }));
    const ozone = ozoneOf(substance.mass);
    const facts = [
      ...gwp.flatMap((each) =>
        partFacts(`global warming potential, 100 years, ${each.edition}`, each.total.parts),
      ),
      ...partFacts("ozone depletion potential", ozone.parts),
    ];
    const equivalent = ({ value }: ClimateSum) => (value === null ? null : value * (mass ?? 0));
    const assumptions = assumptionsOf(gwp);
    return {
      kind: "answer",
      result: {
        name: substance.name,
        gwp: gwp.map((each) => ({
          edition: each.edition,
          ...sumView(each.total),
          ...(mass !== undefined && { co2Equivalent: equivalent(each.total) }),
        })),
        ozone: sumView(ozone),
        ...(mass !== undefined && { mass }),
        facts,
      },
      sources: [...sourcesOf(facts), ...compositionSources(substance)],
      ...(assumptions.length > 0 && { assumptions }),
    };
  },
});
