import { z } from "zod";
import {
  type Accuracy,
  instrumentUncertainty,
  VACUUM_TARGETS,
  vacuumCheck,
} from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, quantity, vacuum } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";

const depth = z.enum(["reached", "not-reached", "gauge-cannot-tell"]);
const output = z.strictObject({
  verdict: z
    .enum(["water-boils", "not-deep-enough", "gauge-cannot-tell", "deeper-than-possible"])
    .describe("Does water boil at the shop's temperature, with 95 % confidence?"),
  p: z
    .number()
    .describe("Absolute pressure of the reading, Pa; below zero when deeper than possible"),
  interval: z
    .strictObject({ from: z.number(), to: z.number() })
    .describe("95 % interval of the absolute pressure, Pa"),
  boilingPressure: z
    .number()
    .describe("Pressure at which water boils at the shop's temperature, Pa"),
  boilingTemperature: z.number().optional().describe("Temperature at which water boils at p, K"),
  boilingTemperatureAtWorst: z
    .number()
    .optional()
    .describe("The same at the interval's upper end, K"),
  deepestReading: z
    .number()
    .describe("Vacuum below the local air that a perfect pump would show, Pa"),
  deepestReadingInHg: z.number().describe("The same in inHg"),
  deep: depth.describe("500 micron (common practice, no source)"),
  acceptable: depth.describe("1000 micron (common practice, no source)"),
});

/** A zeroed compound gauge read with care: 1 inHg (common practice, no source). */
const BOURDON: Accuracy = { kind: "limit", limit: unitSize("inHg") };
/** A thermistor gauge between 100 and 5000 micron: 15 % of the reading (common practice, no source). */
const THERMISTOR: Accuracy = { kind: "percent-of-reading", percent: 15 };

export const vacuumCheckCalculation = defineCalculation({
  name: "vacuum-check",
  title: "Vacuum reading against the boiling pressure of water at shop temperature",
  fields: {
    vacuum: vacuum("Vacuum reading, at the far side of the system rather than at the pump"),
    ambient: quantity(
      "temperature",
      "Temperature of the coldest metal, or of the shop",
      TEMPERATURES,
    ),
    gauge: optional(accuracy("pressure-difference", "Accuracy of the vacuum gauge")),
  },
  output,
  cautions: [cautions.vacuumTest, cautions.leakTest],
  sources: [
    "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 3, 5 and 6: standard atmosphere, vapour pressure of water",
    "JCGM 100:2008 (GUM): class limit as rectangular, coverage factor 2",
  ],
  run({ vacuum: reading, ambient, gauge }, air) {
    const assumed = reading.fromAir ? BOURDON : THERMISTOR;
    // A gauge that counts from the air has its zero there; a micron gauge has it at vacuum.
    const onScale = reading.fromAir ? air.p - reading.p : reading.p;
    const { u } = instrumentUncertainty(gauge ?? assumed, onScale);
    const check = vacuumCheck({
      p: reading.p,
      uReading: u,
      reference: reading.fromAir ? "air" : "absolute",
      T: ambient,
      air,
    });
    if (check.kind === "out-of-range") {
      return {
        kind: "no-answer",
        reason: "outside-water-equations",
        message: "The vapour pressure equations of water hold from −100 to 200 °C only.",
        numbers: { T: ambient, from: check.from, to: check.to },
      };
    }
    const { boilingTemperature, boilingTemperatureAtWorst } = check;
    return {
      kind: "answer",
      result: {
        verdict: check.verdict,
        p: check.p,
        interval: check.interval,
        boilingPressure: check.boilingPressure,
        ...(boilingTemperature !== undefined && { boilingTemperature }),
        ...(boilingTemperatureAtWorst !== undefined && { boilingTemperatureAtWorst }),
        deepestReading: check.deepestReading,
        deepestReadingInHg: check.deepestReading / unitSize("inHg"),
        deep: check.depth.deep,
        acceptable: check.depth.acceptable,
      },
      uncertainty: { p: check.u },
      assumptions: [
        ...(gauge === undefined
          ? [
              reading.fromAir
                ? "Gauge taken as good to 1 inHg (common practice, no source); state its own."
                : "Gauge taken as good to 15 % of the reading (common practice, no source); state its own.",
            ]
          : []),
        `Targets of ${VACUUM_TARGETS.deep.toFixed(1)} Pa (500 micron) and ${VACUUM_TARGETS.acceptable.toFixed(1)} Pa (1000 micron): common practice, no source.`,
      ],
    };
  },
});
