import { z } from "zod";
import { fluid as fluidOf, type FluidId } from "../fluids/index.ts";
import {
  type Accuracy,
  instrumentUncertainty,
  limitOfError,
  type NoSaturation,
  rectangular,
  type StaticCheck,
  staticCheck,
  staticMeanings,
} from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { accuracy } from "./accuracy-field.ts";
import type { NoAnswer } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, quantity } from "./field.ts";
import { fluidField, fluidSource } from "./fluid-field.ts";
import { TEMPERATURES } from "./saturation.ts";

const band = z.strictObject({ from: z.number(), to: z.number() });
const output = z.strictObject({
  expected: z.number().describe("Saturation pressure at the metal's temperature, absolute, Pa"),
  band: band.describe("95 % band in which the reading should fall, absolute, Pa"),
  reading: z.number().describe("The reading, absolute, Pa"),
  difference: z.number().describe("Reading less expected, Pa"),
  verdict: z.enum(["within", "higher", "lower", "undecided"]),
  meanings: z
    .array(z.strictObject({ cause: z.string(), says: z.string(), source: z.string() }))
    .describe("What the verdict can mean; possibilities, not findings"),
  lookAlikes: z
    .array(z.string())
    .describe("Other pure fluids whose saturation pressure fits this reading as well"),
  leastDensity: z
    .number()
    .describe("Mass per volume that shows this pressure with no liquid, kg/m3"),
  leastMass: z
    .number()
    .optional()
    .describe("Least mass that shows the expected pressure in the given volume, kg"),
  contributions: z
    .array(z.strictObject({ name: z.string(), u: z.number() }))
    .describe("What the uncertainty of the difference is made of: standard uncertainties, Pa"),
  localAir: z.number().describe("Local air that gauge readings were counted from, Pa"),
});

const PSI = unitSize("psi");
/** Scales of shop gauges, Pa (common practice, no source). */
const SCALES = [120 * PSI, 500 * PSI, 800 * PSI];
/** Limit of a clamp or spot thermometer whose accuracy is not stated, K (common practice, no source). */
const THERMOMETER: Accuracy = { kind: "limit", limit: 2 };

/** The gauge that is assumed when none is stated: grade B (3-2-3) on the smallest shop scale that holds it. */
function assumedGauge(gaugePressure: number): Accuracy {
  const to = SCALES.find((scale) => scale >= gaugePressure) ?? gaugePressure;
  return { kind: "percent-of-span-by-quarter", outer: 3, middle: 2, from: 0, to };
}

function assumptions(
  gauge: Accuracy | undefined,
  thermometer: Accuracy | undefined,
  limit: number,
) {
  const list: string[] = [];
  if (gauge === undefined) {
    list.push(
      `Gauge taken as grade B (3-2-3 % of span, ASME B40.100 from memory): limit of error ${(limit / PSI).toFixed(1)} psi here; state the gauge's own.`,
    );
  }
  if (thermometer === undefined) {
    list.push(
      "Thermometer taken as good to 2 K at the metal (common practice, no source); state its own.",
    );
  }
  return [
    ...list,
    "The system has stood until all of its metal has one temperature (2 hours or more; common practice, no source).",
  ];
}

/** Nothing to hold the reading against: the fluid does not boil at that temperature. */
function noExpectation(id: FluidId, { reason, T, from, to }: NoSaturation): NoAnswer {
  const above = reason === "above-critical";
  return {
    kind: "no-answer",
    reason: above ? "above-critical" : "below-minimum",
    message: above
      ? `${id} has no liquid above ${to.toFixed(2)} K: its static pressure depends on the charge, so there is nothing to expect.`
      : `The equation of ${id} begins at ${from.toFixed(2)} K.`,
    numbers: { T, from, to },
  };
}

function resultOf(
  check: StaticCheck,
  at: { readonly reading: number; readonly localAir: number },
): z.infer<typeof output> {
  const { reading, localAir } = at;
  const { expected, band: limits, difference, verdict, leastDensity, leastMass } = check;
  return {
    expected,
    band: limits,
    reading,
    difference,
    verdict,
    meanings: staticMeanings(verdict).map((meaning) => ({ ...meaning })),
    lookAlikes: [...check.lookAlikes],
    leastDensity,
    ...(leastMass !== undefined && { leastMass }),
    contributions: check.contributions.map((contribution) => ({ ...contribution })),
    localAir,
  };
}

export const staticCheckCalculation = defineCalculation({
  name: "static-check",
  title: "Static pressure against the saturation pressure of the expected fluid",
  fields: {
    fluid: fluidField,
    ambient: quantity(
      "temperature",
      "Temperature of the metal that holds the liquid, or of the air after a long soak",
      TEMPERATURES,
    ),
    reading: pressure("Static pressure, engine off"),
    gauge: optional(accuracy("pressure-difference", "Accuracy of the gauge")),
    thermometer: optional(
      accuracy("temperature-difference", "Accuracy of the thermometer, contact included"),
    ),
    volume: optional(
      quantity("volume", "Internal volume of the system or vessel", { from: 1e-9, to: 1e3 }),
    ),
  },
  output,
  cautions: [cautions.ports, cautions.charge, cautions.identity, cautions.rules],
  sources: [
    "JCGM 100:2008 (GUM): class limit as rectangular, resolution, combination, coverage factor 2",
    "Saturation pressure from the fluid's own equation of state",
  ],
  run(values, air) {
    const { fluid: id, ambient, reading, gauge, thermometer, volume } = values;
    // An absolute number beside an altitude or barometer was made from a gauge: the air's uncertainty is in it.
    const fromAir = reading.fromAir || (values.altitude ?? values.barometer) !== undefined;
    const onScale = reading.p - air.p;
    const ofGauge = instrumentUncertainty(gauge ?? assumedGauge(onScale), onScale);
    // A thermometer's percentage is of what its scale shows, in °C.
    const metalU = rectangular(limitOfError(thermometer ?? THERMOMETER, ambient - 273.15));
    const check = staticCheck({
      fluid: fluidOf(id),
      metal: { T: ambient, u: metalU },
      pressure: { p: reading.p, u: ofGauge.u, reference: fromAir ? "air" : "absolute" },
      air,
      volume,
    });
    if (check.kind === "no-saturation") return noExpectation(id, check);
    return {
      kind: "answer",
      result: resultOf(check, { reading: reading.p, localAir: air.p }),
      uncertainty: { difference: check.u, reading: ofGauge.u },
      sources: [fluidSource(id)],
      assumptions: assumptions(gauge, thermometer, ofGauge.limit),
    };
  },
});
