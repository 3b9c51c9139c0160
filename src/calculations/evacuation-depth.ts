import { z } from "zod";
import { airLeft, depthNeeded } from "../service/index.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { quantity } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";

const Pa = (says: string) => z.number().describe(`${says}, Pa`);

export const evacuationDepthCalculation = defineCalculation({
  name: "evacuation-depth",
  title: "How deep a vacuum has to be here",
  fields: { T: quantity("temperature", "Temperature of the coldest metal", TEMPERATURES) },
  output: z.strictObject({
    boiling: Pa("Absolute pressure below which water boils at the coldest metal"),
    deep: Pa("500 micron"),
    acceptable: Pa("1000 micron"),
    reading: z
      .strictObject({
        deep: Pa("At 500 micron"),
        acceptable: Pa("At 1000 micron"),
        boiling: Pa("Where water boils"),
        deepest: Pa("Perfect pump"),
      })
      .describe("What a gauge that counts from the local air shows below it"),
    gaugeOnly: Pa("Least such reading to settle for without a micron gauge, below the local air"),
    warmFirst: z.boolean().describe("The metal is so cold that water hardly leaves at 500 micron"),
    airLeftByThreePulls: z
      .number()
      .describe("Share of air left by three pulls to 1000 micron, each broken with dry nitrogen"),
  }),
  cautions: [cautions.vacuumTest],
  sources: [
    "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 3, 5 and 6: standard atmosphere, vapour pressure of water",
    "Targets of 500 and 1000 micron and of 29.2 in 29.92 inHg: common practice, no source",
  ],
  run({ T }, air) {
    const depth = depthNeeded(T, air.p);
    if (depth.kind === "out-of-range") {
      return {
        kind: "no-answer",
        reason: "outside-water-equations",
        message: "The vapour pressure equations of water hold from −100 to 200 °C only.",
        numbers: { T, from: depth.from, to: depth.to },
      };
    }
    const { boiling, deep, acceptable, reading, gaugeOnly, warmFirst } = depth;
    const airLeftByThreePulls = airLeft(acceptable, air.p, 3);
    return {
      kind: "answer",
      result: { boiling, deep, acceptable, reading, gaugeOnly, warmFirst, airLeftByThreePulls },
    };
  },
});
