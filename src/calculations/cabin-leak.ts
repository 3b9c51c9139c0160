import { z } from "zod";
import {
  climateOf,
  editions,
  fractionOf,
  type LeakHazard,
  leakHazard,
  overAir,
  OXYGEN_DEPRIVATION,
  poisonsInFlame,
  type ZoneHazard,
} from "../service/index.ts";
import { molarMass } from "../service/index.ts";
import { noBulk } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { leakCase } from "./leak-case.ts";
import { leakFields } from "./leak-fields.ts";
import { type Substance, substanceOf, substanceSources } from "./substance-field.ts";

const zone = {
  peak: z.number().describe("Highest concentration, kg/m3"),
  peakAt: z.number().describe("When, s after the leak began"),
  peakVolumePercent: z.number().describe("The same, % by volume"),
  overLFL: z
    .number()
    .nullable()
    .describe("Peak over the lower flammability limit; none where no limit is known"),
  minutesAboveLFL: z
    .number()
    .nullable()
    .describe(
      "0 if never; none where no limit is known, or where it never falls below: see clears",
    ),
  minutesAboveQuarterLFL: z.number().nullable().describe("The same above a quarter of the limit"),
  clears: z
    .boolean()
    .nullable()
    .describe("Whether it ever falls below a quarter of the limit; none where no limit is known"),
  safeMass: z
    .number()
    .nullable()
    .describe(
      "kg that would stay below a quarter of the limit; none where no limit is known, or where any mass would",
    ),
  oxygenPercent: z.number().describe("Oxygen left at the peak, % by volume of dry air"),
  full: z.boolean().describe("All vapour and no air: it can hold no more"),
};
const output = z.strictObject({
  name: z.string(),
  place: z.enum(["cabin", "bay"]),
  air: z.enum(["stirred", "layer"]).describe("Of which the figures beside it tell"),
  ...zone,
  series: z
    .array(
      z.strictObject({
        t: z.number().describe("s"),
        concentration: z.number().describe("kg/m3 where it leaks in"),
        rest: z.number().describe("kg/m3 above the layer; the same where the air is stirred"),
      }),
    )
    .describe("Concentration over time"),
  stirred: z.strictObject(zone).describe("With the air stirred"),
  layer: z.strictObject(zone).describe("In a layer at the floor: the worst case"),
  lfl: z
    .number()
    .nullable()
    .describe("Lower flammability limit to warn with, kg/m3 at the air's temperature and pressure"),
  burns: z.enum(["yes", "no", "treat-as-burning", "unknown"]),
  breathing: z
    .array(
      z.strictObject({
        what: z.enum(["RCL", "ATEL", "oxygen-deprivation"]),
        volumePercent: z.number(),
        ratio: z.number().describe("Peak over this limit"),
      }),
    )
    .describe("Limits for people's lungs"),
  safeToBreathe: z.number().nullable().describe("kg that would stay below the RCL"),
  lasts: z.number().describe("Until the last of it is out, s"),
  rate: z.number().nullable().describe("Through a hole at first, kg/s"),
  pressureBehind: z.number().nullable().describe("Behind the hole, absolute, Pa"),
  overAir: z.number().describe("Density of the vapour over that of air"),
  poisonInFlame: z.boolean().describe("Gives hydrogen fluoride and the like in a flame"),
  co2Equivalent: z
    .array(z.strictObject({ edition: z.enum(editions), mass: z.number().nullable() }))
    .describe("What the escaped mass amounts to, kg CO2, by report"),
});
type Result = z.infer<typeof output>;

const minutes = (seconds: number | null | undefined): number | null =>
  seconds === null || seconds === undefined ? null : seconds / 60;

const zoneView = (hazard: ZoneHazard): z.infer<typeof output.shape.layer> => ({
  peak: hazard.peak,
  peakAt: hazard.peakAt,
  peakVolumePercent: 100 * hazard.fraction,
  overLFL: hazard.overLfl ?? null,
  minutesAboveLFL: minutes(hazard.aboveLfl),
  minutesAboveQuarterLFL: minutes(hazard.aboveQuarter),
  clears: hazard.overLfl === undefined ? null : hazard.aboveQuarter !== null,
  safeMass: hazard.safeMass ?? null,
  oxygenPercent: 100 * hazard.oxygen,
  full: hazard.full,
});

function burnsOf({ rated, lfl }: LeakHazard): Result["burns"] {
  switch (rated.kind) {
    case "does-not-burn":
      return lfl === undefined ? "no" : "yes";
    case "limits":
      return "yes";
    case "only-tests-count":
      return rated.class === null && lfl === undefined ? "treat-as-burning" : "yes";
    case "unknown":
      return lfl === undefined ? "unknown" : "yes";
  }
}

function breathingOf({ breathing }: LeakHazard, fraction: number): Result["breathing"] {
  const known = [
    ["RCL", breathing.rcl],
    ["ATEL", breathing.atel],
    ["oxygen-deprivation", OXYGEN_DEPRIVATION],
  ] as const;
  return known.flatMap(([what, limit]) =>
    limit === undefined ? [] : [{ what, volumePercent: 100 * limit, ratio: fraction / limit }],
  );
}

const LIMITS = [
  "Each zone is taken as even. Near the leak it is richer, so a flame is possible there whatever these figures say.",
  "A mixture above the upper limit is too rich to burn until it thins; its edge burns all the while.",
  "Air that the vapour pushes out is not counted: concentrations are a little too high.",
];

const NO_LIMIT =
  "No lower flammability limit is known here for this composition, so nothing is said about flame. That is no sign of safety.";

const cautionsOf = (hazard: LeakHazard, { moles }: Substance, place: Result["place"]) => [
  ...(hazard.rated.kind === "does-not-burn" && hazard.lfl === undefined
    ? []
    : [cautions.flammable]),
  ...(hazard.lfl === undefined && hazard.rated.kind !== "does-not-burn" ? [NO_LIMIT] : []),
  ...(poisonsInFlame(moles) ? [cautions.poisonInFlame] : []),
  ...(place === "bay"
    ? [
        "In the bay, exhaust and turbocharger are ignition sources, mist of oil catches fire more easily than the vapour alone, and what is heavier than air runs down into a pit.",
      ]
    : []),
];

export const cabinLeak = defineCalculation({
  name: "cabin-leak",
  title: "What a charge would do if it leaked into the cabin or the bay",
  fields: leakFields,
  output,
  cautions: [
    "This answers what would happen. Never release anything to find out: it may be prohibited, and it may burn.",
    "Whether a flammable refrigerant may be in a vehicle at all differs from place to place: ask the authority; only licensed people, a ventilated place, no ignition sources, a detector rated for the gas.",
  ],
  sources: [
    "Mass balance of one zone and of two, closed form",
    "Limits for occupied rooms at a quarter of the flammability limit; oxygen deprivation at 14 %: ASHRAE 34 clause 7, from memory",
    "Fall of the flammability limit with temperature, 8 % of its value each 100 K: Burgess and Wheeler, from memory",
  ],
  run(values, air) {
    const substance = substanceOf(values);
    if (substance.kind === "invalid") return substance;
    const asked = leakCase(values, substance, air);
    if (asked.kind === "invalid") return asked;
    const { leak, sentences } = asked;
    const hazard = leakHazard(leak);
    if (hazard.kind === "failed") return noBulk(substance.name, hazard);
    const { place = "cabin", blower, edition } = values;
    const layered = blower === "off";
    const shown = layered ? hazard.worst : hazard.stirred;
    const reports = edition === undefined ? editions : [edition];
    const { lfl, behind } = hazard;
    return {
      kind: "answer",
      result: {
        name: substance.name,
        place,
        air: layered ? ("layer" as const) : ("stirred" as const),
        ...zoneView(shown),
        series: [...shown.series],
        stirred: zoneView(hazard.stirred),
        layer: zoneView(hazard.worst),
        lfl: lfl ?? null,
        burns: burnsOf(hazard),
        breathing: breathingOf(hazard, fractionOf(shown.peak, molarMass(leak.moles), leak.air)),
        safeToBreathe: shown.safeToBreathe ?? null,
        lasts: hazard.lasts,
        rate: behind?.flow.rate ?? null,
        pressureBehind: behind?.p ?? null,
        overAir: overAir(leak.moles),
        poisonInFlame: poisonsInFlame(leak.moles),
        co2Equivalent: reports.map((each) => {
          const { value } = climateOf(substance.mass, each);
          return { edition: each, mass: value === null ? null : value * leak.mass };
        }),
      },
      cautions: cautionsOf(hazard, substance, place),
      sources: [
        ...(behind ? substanceSources(substance) : []),
        ...hazard.breathing.sources.map((source) => `limits for lungs: ${source}`),
      ],
      assumptions: [...sentences, ...LIMITS],
    };
  },
});
