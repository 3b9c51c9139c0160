import { z } from "zod";
import { airCheck, instrumentUncertainty, materialOf, rectangular } from "../service/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { airAssumptions } from "./air-fields.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, quantity } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";

const output = z.strictObject({
  excess: z
    .number()
    .describe(
      "Reading less saturation (of a blend: bubble) pressure, Pa: the air's share, if it is air",
    ),
  limit: z.number().describe("Highest pressure that passes, absolute, Pa"),
  limitGauge: z.number().describe("The same as the gauge shows it here, Pa"),
  verdict: z
    .enum(["pass", "air", "undecided", "within-glide", "no-test"])
    .describe(
      "pass: not above the limit; air: above it; undecided: within the gauge's uncertainty of it; within-glide: between dew and bubble pressure of a blend; no-test: below saturation, so no liquid, colder, or another fluid",
    ),
  meaning: z.string(),
  saturation: z
    .number()
    .describe("Saturation pressure, of a blend at the bubble point, absolute, Pa"),
  dew: z.number().describe("Dew pressure, absolute, Pa"),
  airFraction: z.number().describe("Air in the vapour, fraction by mole, if the excess is air"),
  basis: z
    .enum(["published-table", "published-margin", "carried-over"])
    .describe("carried-over: no table exists for this fluid; the margin of R134a's is used"),
});

const MEANINGS = {
  pass: "No more pressure than the rule accepts: a little air may still be inside.",
  air: "More pressure than the rule accepts: air, or another refrigerant. Let it stand at a steady temperature and read again; then draw the vapour off the top slowly into recovery, and recycle all of it if it still reads high.",
  undecided: "The gauge cannot tell on which side of the limit it is.",
  "within-glide":
    "Between dew and bubble pressure the level of the liquid decides: this test cannot find air here.",
  "no-test":
    "Below saturation there is no liquid inside, it is colder than it was read, or it is another refrigerant: the test says nothing.",
} as const;

/** A thermometer on a container's wall, K (common practice, no source). */
const THERMOMETER = 1.5;

export const noncondensable = defineCalculation({
  name: "noncondensable",
  title: "Air above the refrigerant in a container, from its pressure and temperature at rest",
  fields: {
    ...substanceFields,
    T: quantity("temperature", "Temperature of the container after hours at rest", TEMPERATURES),
    pressure: pressure("Pressure of the container"),
    gauge: optional(
      accuracy(
        "pressure-difference",
        "Accuracy of the gauge; with it a narrow result is undecided",
      ),
    ),
  },
  output,
  cautions: [cautions.identity, cautions.ports, cautions.leakTest, cautions.rules],
  sources: [
    "40 CFR 82 subpart B, appendix A (SAE J1989 5.1 to 5.7): method and table for R12",
    "SAE J2211 (from memory, cross-checked): R134a, saturation + 5 psi",
  ],
  run({ fluid, blend, T, pressure: reading, gauge }, air) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const material = materialOf(substance.moles);
    const check = (at: number, u?: number) => airCheck({ material, T: at, p: reading.p, u });
    const plain = check(T);
    if (plain.kind === "failed") return noBulk(substance.name, plain);
    const warmer = check(T + 1);
    const slope = warmer.kind === "checked" ? warmer.saturation - plain.saturation : 0;
    const scale = reading.p - (reading.fromAir ? air.p : 0);
    const parts = gauge && [
      instrumentUncertainty(gauge, scale).u,
      slope * rectangular(THERMOMETER),
      reading.fromAir ? air.u : 0,
    ];
    const u = parts && Math.hypot(...parts);
    const found = check(T, u);
    if (found.kind === "failed") return noBulk(substance.name, found);
    const { excess, limit, verdict, saturation, dew, airFraction, basis } = found;
    return {
      kind: "answer",
      result: {
        ...{ excess, limit, limitGauge: limit - air.p, verdict, meaning: MEANINGS[verdict] },
        ...{ saturation, dew, airFraction, basis },
      },
      ...(u !== undefined && { uncertainty: { excess: u } }),
      sources: [found.source, ...substanceSources(substance), ...pairSources(material)],
      assumptions: [
        "The container has stood for hours out of the sun, has liquid inside, and the thermometer shows that liquid.",
        ...(basis === "carried-over"
          ? [
              "No table is published for this fluid here: the 5 psi of the R134a table is carried over (common practice, no source).",
            ]
          : []),
        ...(u === undefined
          ? [
              "Compared as read, as the published method does; state the gauge's accuracy to see whether it can tell.",
            ]
          : [`The thermometer is taken as good to ${THERMOMETER} K (common practice, no source).`]),
        ...estimateSentences(material),
        ...airAssumptions(air),
      ],
    };
  },
});
