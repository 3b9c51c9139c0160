import { z } from "zod";
import {
  type Flammability,
  type FlammabilityLimit,
  flammabilityOf,
  type Part,
  safetyClasses,
  substanceFacts,
  type UntestedReason,
} from "../service/index.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { factSchema, factView } from "./fact-view.ts";
import {
  compositionSources,
  type Substance,
  substanceFields,
  substanceOf,
} from "./substance-field.ts";

const limit = z.strictObject({
  volumePercent: z.number().describe("% by volume in air at 25 °C and 101.325 kPa"),
  massPerVolume: z.number().describe("kg/m3 at 25 °C and 101.325 kPa"),
});
const output = z.strictObject({
  name: z.string(),
  class: z
    .enum(safetyClasses)
    .nullable()
    .describe("Safety class of ASHRAE 34; none where no table lists this composition"),
  behavesAs: z.enum(safetyClasses).optional().describe("The class that an unlisted blend is like"),
  burns: z
    .enum(["yes", "no", "treat-as-burning", "unknown"])
    .describe(
      "Whether it burns in open air; treat-as-burning: has parts that burn, and no test of this composition is known here",
    ),
  rule: z
    .enum(["listed", "le-chatelier", "none"])
    .describe("Where the limit comes from: a table, Le Chatelier's rule, or none is given"),
  because: z
    .enum(["part-that-does-not-burn", "fluoro-olefin", "unlike-fuels", "oxygen", "unknown-part"])
    .optional()
    .describe("Why no limit is computed"),
  lfl: limit.nullable().describe("Lower flammability limit to warn with: the lowest known figure"),
  limits: z
    .array(limit.extend({ table: z.enum(["ashrae", "isoEn", "other", "blend"]) }))
    .describe(
      "The limit by the tables it comes from; blend: as listed for the blend itself; other: not a table of refrigerants",
    ),
  facts: z.array(factSchema).describe("Facts of the parts, shaky ones included"),
});
type Result = z.infer<typeof output>;

const limitView = ({ volume, mass }: FlammabilityLimit): z.infer<typeof limit> => ({
  volumePercent: 100 * volume,
  massPerVolume: mass,
});

const tables = ["ashrae", "isoEn", "other", "blend"] as const;

/** The part of the answer that follows from what is known of the flame. */
function ofFlame(rated: Flammability): Omit<Result, "name" | "facts" | "behavesAs"> {
  const bare = { class: rated.class, rule: "none", lfl: null, limits: [] } as const;
  switch (rated.kind) {
    case "does-not-burn":
      return { ...bare, limits: [], burns: "no" };
    case "unknown":
      return { ...bare, limits: [], burns: "unknown", because: "unknown-part" };
    case "only-tests-count": {
      const burns = rated.class === null ? "treat-as-burning" : "yes";
      return { ...bare, limits: [], burns, because: rated.because };
    }
    case "limits": {
      const { limits, rule } = rated;
      const views = tables.flatMap((table) => {
        const found = limits[table];
        return found ? [{ table, ...limitView(found) }] : [];
      });
      const lfl = limitView(limits.lowest);
      return { class: rated.class, burns: "yes", rule, lfl, limits: views };
    }
  }
}

const factsOf = ({ fluid }: Part) => {
  const { lfl, ufl, rcl, atel } = substanceFacts(fluid);
  const tablesOf = [
    ["ASHRAE 34", lfl?.ashrae],
    ["ISO/EN", lfl?.isoEn],
    ["other", lfl?.other],
  ] as const;
  return [
    ...tablesOf.flatMap(([table, found]) => [
      ...factView(fluid, `lower flammability limit by volume, ${table}`, found?.volume),
      ...factView(fluid, `lower flammability limit by mass, ${table}`, found?.mass),
    ]),
    ...factView(fluid, "upper flammability limit by volume", ufl),
    ...factView(fluid, "limit for occupied rooms (RCL) by volume", rcl?.volume),
    ...factView(fluid, "limit for occupied rooms (RCL) by mass", rcl?.mass),
    ...factView(fluid, "acute-toxicity exposure limit (ATEL)", atel),
  ];
};

const REASONS: Readonly<Record<UntestedReason, string>> = {
  "part-that-does-not-burn":
    "Parts that burn and parts that do not: no rule of mixing gives the limit, only tests of this composition count. Treat it as burning unless a table lists it in class 1.",
  "fluoro-olefin":
    "Fluoro-olefins follow no rule of mixing, and humidity moves their limit: only tests of this composition count.",
  "unlike-fuels":
    "The parts that burn are not similar fuels: Le Chatelier's rule does not hold, only tests of this composition count.",
  oxygen:
    "Oxygen inside: with a fuel in one vessel it may already be an explosive mixture, whatever the limits in air.",
};

const LE_CHATELIER =
  "Le Chatelier's rule over mole fractions, for similar fuels (here hydrocarbons), dry air, 25 °C and 101.325 kPa. It is for the lower limit only.";
const LOWEST =
  "Tables differ (ASHRAE 34 and ISO/EN swap R600 and R600a); the lowest figure is the one to warn with.";
const AS_GIVEN =
  "The composition as given. Vapour that leaks from a blend with glide is richer in its light parts, and the liquid left is heavier.";

/** Source of the class in use, in full. */
const classSources = ({ named, pure }: Substance): readonly string[] => {
  const safety = named ? named.class : pure && substanceFacts(pure).class;
  return safety ? [`class: ${safety.source}`] : [];
};

const blendLimitSources = ({ named }: Substance): readonly string[] =>
  named?.lfl ? [`limit of the blend: ${named.lfl.mass.source}`] : [];

function assumptionsOf(rated: Flammability, substance: Substance): readonly string[] {
  const mixed = substance.pure === undefined ? [AS_GIVEN] : [];
  switch (rated.kind) {
    case "limits":
      return [...(rated.rule === "le-chatelier" ? [LE_CHATELIER] : []), LOWEST, ...mixed];
    case "only-tests-count":
      return [REASONS[rated.because], ...mixed];
    case "unknown":
      return [`It is not known here whether these burn: ${rated.unknown.join(", ")}.`];
    case "does-not-burn":
      return mixed;
  }
}

const fluorinated = ({ fluid }: Part): boolean => {
  const { family } = substanceFacts(fluid);
  return !["hydrocarbon", "ether", "inorganic"].includes(family);
};

function cautionsOf(rated: Flammability, { mass }: Substance): readonly string[] {
  return [
    ...(rated.kind === "does-not-burn" ? [] : [cautions.flammable]),
    ...(mass.some(fluorinated) ? [cautions.poisonInFlame] : []),
    ...(mass.some(({ fluid }) => fluid === "R732") ? [cautions.oxygen] : []),
    ...mass.flatMap(({ fluid }) => {
      const { note } = substanceFacts(fluid);
      return note === undefined ? [] : [`${fluid}: ${note}`];
    }),
  ];
}

export const flammability = defineCalculation({
  name: "flammability",
  title: "Safety class and lower flammability limit of a fluid or blend",
  fields: substanceFields,
  output,
  cautions: [cautions.leakTest, cautions.rules],
  sources: [
    "Le Chatelier, Ann. Mines 19 (1891) 388 (from memory): 1/L = Σ x/L over mole fractions, for similar fuels",
    "kg/m3 = volume fraction · M / 0.024465 m3/mol (25 °C, 101.325 kPa), as ASHRAE 34 converts",
  ],
  run(values) {
    const substance = substanceOf(values);
    if (substance.kind === "invalid") return substance;
    const rated = flammabilityOf(substance.moles, substance.named);
    const { behavesAs } = substance.named ?? {};
    return {
      kind: "answer",
      result: {
        name: substance.name,
        ...(behavesAs && { behavesAs }),
        ...ofFlame(rated),
        facts: substance.mass.flatMap(factsOf),
      },
      cautions: cautionsOf(rated, substance),
      sources: [
        ...classSources(substance),
        ...blendLimitSources(substance),
        ...compositionSources(substance),
      ],
      assumptions: assumptionsOf(rated, substance),
    };
  },
});
