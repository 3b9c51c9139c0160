import { z } from "zod";
import { cylinderLimit, flammabilityOf, materialOf, recoveryNumber } from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, quantity } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { waterCapacityField } from "./water-capacity-field.ts";

const rule = z.enum(["liquid-share", "never-full", "pressure"]);
const output = z.strictObject({
  maxMass: z.number().describe("Most that the vessel may hold, kg"),
  maxGross: z.number().describe("Tare and that: where the scale has to stop, kg"),
  binding: rule.describe("Which rule stops first"),
  rules: z
    .array(
      z.strictObject({
        rule: rule.describe(
          "liquid-share: 80 % liquid at the filling temperature; never-full: not full of liquid at 55 °C; pressure: above the critical point, 1.25 times the marked service pressure at 55 °C",
        ),
        mass: z.number().describe("kg"),
        T: z.number().describe("K"),
      }),
    )
    .describe("What each rule allows"),
  liquidFullTemperature: z
    .number()
    .optional()
    .describe(
      "Temperature at which that mass fills the vessel with liquid, K; missing if it never does",
    ),
  liquidShareAt54C: z
    .number()
    .optional()
    .describe("Liquid's part of the volume at 54.4 °C (130 °F); missing above the critical point"),
  pressureAt54C: z.number().describe("Pressure at 54.4 °C (130 °F), absolute, Pa"),
  pressureAt55C: z.number().describe("Pressure at 55 °C (131 °F), absolute, Pa"),
  minimumClass: z
    .number()
    .describe("Least marked service pressure, above the air, Pa: the pressure at 55 °C over 1.25"),
  minimumClassPsi: z.number().describe("The same in psi"),
  suits: z.boolean().optional().describe("Whether the given rating is that high"),
  oldLabelRule: z
    .strictObject({
      mass: z.number().describe("0.8 times the water capacity, kg"),
      gross: z.number().describe("kg"),
      liquidShare: z
        .number()
        .describe(
          "Liquid's part of the volume at the filling temperature; above 1 it does not go in",
        ),
      liquidFullTemperature: z.number().optional().describe("K"),
      overfills: z.boolean().describe("It allows more than maxMass"),
    })
    .describe(
      "Gross = tare + 0.8 × water capacity, for contrast: it takes every refrigerant for water",
    ),
});

export const cylinderLimitCalculation = defineCalculation({
  name: "cylinder-limit",
  title: "How much of a fluid or blend a cylinder may hold, and which class it needs",
  fields: {
    ...substanceFields,
    waterCapacity: waterCapacityField,
    tare: quantity("mass", "Mass of the empty cylinder with its valve", { from: 0, to: 1e5 }),
    rating: optional(pressure("Marked service pressure, such as 400 psig")),
    fillTemperature: optional(
      quantity(
        "temperature",
        "Temperature at which 80 % may be liquid; 25 °C if left out, and never less",
        TEMPERATURES,
      ),
    ),
  },
  output,
  cautions: [cautions.cylinder, cautions.ports, cautions.rules],
  sources: [
    recoveryNumber("fillShare").source,
    `${recoveryNumber("transportTemperature").source}: never full of liquid up to 55 °C; pressure at 55 °C within 1.25 times the marked service pressure`,
  ],
  run({ fluid, blend, waterCapacity, tare, rating, fillTemperature }, air) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const material = materialOf(substance.moles);
    const marked = rating && Math.max(0, rating.p - air.p);
    const found = cylinderLimit({ material, waterCapacity, tare, rating: marked, fillTemperature });
    if (found.kind === "failed") return noBulk(substance.name, found);
    const { liquidFullTemperature, warmShare, suits, oldRule } = found;
    const { liquidFullTemperature: oldFull, share, ...old } = oldRule;
    const burns = flammabilityOf(substance.moles, substance.named).kind !== "does-not-burn";
    return {
      kind: "answer",
      result: {
        maxMass: found.maxMass,
        maxGross: found.maxGross,
        binding: found.binding,
        rules: [...found.rules],
        ...(liquidFullTemperature !== undefined && { liquidFullTemperature }),
        ...(warmShare !== undefined && { liquidShareAt54C: warmShare }),
        pressureAt54C: found.pressureWarm,
        pressureAt55C: found.pressureTransport,
        minimumClass: found.minimumClass,
        minimumClassPsi: found.minimumClass / unitSize("psi"),
        ...(suits !== undefined && { suits }),
        oldLabelRule: {
          ...old,
          liquidShare: share,
          ...(oldFull !== undefined && { liquidFullTemperature: oldFull }),
        },
      },
      uncertainty: { maxMass: found.u },
      cautions: [
        ...(burns ? [cautions.flammableCylinder] : []),
        ...(suits === false ? [cautions.weakCylinder] : []),
      ],
      sources: [...substanceSources(substance), ...pairSources(material)],
      assumptions: [
        "Refrigerant alone: oil or air that comes along takes room and raises the pressure. What the vessel holds already counts.",
        "The mark counts before this figure: stay below whichever is lower.",
        ...estimateSentences(material),
      ],
    };
  },
});
