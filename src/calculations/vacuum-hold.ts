import { z } from "zod";
import { analyseHold, DECIDED, type HoldAnalysis } from "../evidence/index.ts";
import { fluid as fluidOf, type FluidId, saturationAtT } from "../fluids/index.ts";
import { type Accuracy, instrumentUncertainty, yearlyLoss } from "../service/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { fraction, optional, pressure, quantity } from "./field.ts";
import { fluidField } from "./fluid-field.ts";
import { holdField } from "./hold-field.ts";

const share = z.number().min(0).max(1);
const output = z.strictObject({
  class: z
    .enum(["tight", "wet", "outgassing", "leaking", "undecided"])
    .describe(`What the hold means, when its probability is at least ${DECIDED}`),
  probabilities: z.strictObject({ tight: share, wet: share, outgassing: share, leaking: share }),
  leak: z.strictObject({
    rate: z.number().describe("Air streaming in if it leaks, V·dp/dt, Pa m3/s, median"),
    from: z.number().describe("Lower end of its 95 % interval"),
    to: z.number().describe("Upper end; where it is not leaking, the most that may be hidden"),
    perYear: z
      .strictObject({ laminar: z.number(), from: z.number(), to: z.number(), pressure: z.number() })
      .optional()
      .describe(
        "This refrigerant out of such a hole at rest, kg a year and Pa: an order of magnitude",
      ),
  }),
  fits: z.array(
    z.strictObject({
      model: z.string(),
      cause: z.string(),
      probability: share,
      t: z.array(z.number()).describe("s"),
      p: z.array(z.number()).describe("Pa"),
      start: z.number().describe("Pa"),
      leakSlope: z.number().optional().describe("Pa/s"),
      gasRise: z.number().optional().describe("Pa"),
      plateau: z.number().optional().describe("Pa"),
      tau: z.number().optional().describe("s"),
    }),
  ),
  noise: z.number().describe("Random error found, as a share of the reading"),
  step: z.number().describe("Step of the gauge, Pa"),
  rows: z.number(),
});

/** 15 % of the reading (common practice, no source). */
const THERMISTOR: Accuracy = { kind: "percent-of-reading", percent: 15 };

function perYear(Q: number, fluid: FluidId | undefined, T: number, air: number) {
  if (fluid === undefined) return undefined;
  const pure = fluidOf(fluid);
  const found = saturationAtT(pure, T);
  if (found.kind === "out-of-range" || found.p <= 1.05 * air) return undefined;
  const loss = yearlyLoss(Q, { p: found.p, air, M: pure.info.M, T });
  return { ...loss, pressure: found.p };
}

const fitsOf = ({ fits }: HoldAnalysis) =>
  fits.map(({ t, p, ...rest }) => ({ ...rest, t: [...t], p: [...p] }));

export const vacuumHoldCalculation = defineCalculation({
  name: "vacuum-hold",
  title: "What a vacuum hold means: tight, wet, outgassing or leaking",
  fields: {
    trace: holdField,
    T: quantity("temperature", "Temperature of the metal or the shop", {
      from: 223.15,
      to: 373.15,
    }),
    volume: quantity("volume", "Volume that is held: system and hoses", { from: 1e-5, to: 1 }),
    volumeUncertainty: optional(
      fraction("Standard uncertainty of the volume as a share of it; 10 % if left out"),
    ),
    fluid: optional(fluidField),
    gauge: optional(accuracy("pressure-difference", "Accuracy of the vacuum gauge")),
    resolution: optional(pressure("Step of the gauge's figures; found from them if left out")),
  },
  output,
  cautions: [cautions.vacuumTest, cautions.leakTest],
  sources: [
    "ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6: vapour pressure of water",
    "Bayesian choice among tight, wet, outgassing and leaking curves: docs/models/evacuation.md",
  ],
  run({ trace, T, volume, volumeUncertainty, fluid, gauge, resolution }, air) {
    const middle = trace.p[Math.floor(trace.p.length / 2)] ?? 0;
    const uGauge = instrumentUncertainty(gauge ?? THERMISTOR, middle).u / middle;
    const found = analyseHold(
      { t: trace.t, p: trace.p, T: trace.T ?? T },
      {
        volume,
        uVolume: volumeUncertainty ?? 0.1,
        uGauge: Math.min(0.5, uGauge),
        ...(resolution && resolution.p > 0 && { resolution: resolution.p }),
      },
    );
    const loss = perYear(found.leak.rate, fluid, T, air.p);
    return {
      kind: "answer",
      result: {
        class: found.cause,
        probabilities: found.probabilities,
        leak: { ...found.leak, ...(loss && { perYear: loss }) },
        fits: fitsOf(found),
        noise: found.noise,
        step: found.step,
        rows: found.rows,
      },
      assumptions: [
        "Before the trace is seen: tight 25 %, wet 15 %, outgassing 25 %, leaking 35 % (judgement, no source).",
        "The leak's rate holds if there is a leak; a slow leak and long outgassing look alike until a second pull halves the one.",
        ...(gauge
          ? []
          : ["Gauge taken as good to 15 % of the reading (common practice, no source)."]),
        ...(loss
          ? [
              "Grams a year are an order of magnitude: the path is unknown, and service loads seals the other way.",
            ]
          : []),
      ],
    };
  },
});
