import { z } from "zod";
import { waterBoiling } from "../air/index.ts";
import { invalidInput, issue, type NoAnswer } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, vacuum } from "./field.ts";

const output = z.strictObject({
  T: z.number().describe("Temperature at which water boils or ice sublimes, K"),
  p: z.number().describe("Absolute pressure, Pa"),
  from: z.enum(["liquid", "ice"]).describe("What boils: liquid water, or ice below 273.16 K"),
});

/** The reading leaves no pressure that water could boil at. */
function outsideWater(p: number, from: number, to: number): NoAnswer {
  return {
    kind: "no-answer",
    reason: "outside-water-equations",
    message:
      p <= 0
        ? "This vacuum is deeper than the local air allows: check the gauge's zero and the altitude or barometer."
        : "The vapour pressure equations of water hold from −100 to 200 °C only.",
    numbers: { p, from, to },
  };
}

/** Half the change of the boiling temperature over two standard uncertainties of the pressure. */
function boilingU(p: number, u: number): number | undefined {
  const [above, below] = [waterBoiling(p + u), waterBoiling(p - u)];
  if (above.kind !== "temperature" || below.kind !== "temperature") return undefined;
  return (above.T - below.T) / 2;
}

export const waterBoilingCalculation = defineCalculation({
  name: "water-boiling",
  title: "Temperature at which water boils at a vacuum or a pressure",
  fields: {
    vacuum: optional(vacuum("Vacuum reading; give this or pressure")),
    pressure: optional(pressure("Pressure; give this or vacuum")),
  },
  output,
  cautions: [cautions.vacuumTest],
  sources: [
    "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6: vapour pressure of water over ice and liquid",
  ],
  run({ vacuum: depth, pressure: direct }, air) {
    const reading = depth ?? direct;
    if (reading === undefined || (depth && direct)) {
      const given =
        reading === undefined ? "neither vacuum nor pressure" : "both vacuum and pressure";
      return invalidInput(issue("vacuum", given, "either vacuum or pressure"));
    }
    const { p } = reading;
    const boiling = waterBoiling(p);
    if (boiling.kind === "out-of-range") return outsideWater(p, boiling.from, boiling.to);
    const u = reading.fromAir ? air.u : undefined;
    const uT = u === undefined ? undefined : boilingU(p, u);
    return {
      kind: "answer",
      result: { T: boiling.T, p, from: boiling.from },
      ...(u !== undefined && { uncertainty: { p: u, ...(uT !== undefined && { T: uT }) } }),
    };
  },
});
