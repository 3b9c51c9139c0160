import { z } from "zod";
import {
  type Accuracy,
  instrumentUncertainty,
  materialOf,
  rectangular,
  requiredPressure,
  residualVapour,
  vacuumReached,
} from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { airAssumptions } from "./air-fields.ts";
import { invalidInput, issue } from "./answer.ts";
import { estimateSentences, noBulk, pairSources } from "./blend-answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, quantity, vacuum } from "./field.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields, substanceOf, substanceSources } from "./substance-field.ts";
import { vesselFields } from "./vessel-fields.ts";

const output = z.strictObject({
  phase: z.enum(["vapour", "liquid-possible"]),
  mass: z.number().describe("Vapour inside, kg; with liquid possible, the least that is there"),
  p: z.number().describe("Pressure, absolute, Pa"),
  contributions: z
    .array(z.strictObject({ name: z.string(), u: z.number() }))
    .describe("Standard uncertainty of the mass by its cause, kg"),
  required: z.strictObject({
    p: z.number().describe("102 mmHg below the local air, absolute, Pa"),
    mass: z.number().optional().describe("Vapour that is left there, kg"),
    verdict: z
      .enum(["reached", "not-reached", "cannot-tell"])
      .describe("Whether the reading is that low, with 95 % confidence"),
  }),
});

/** A zeroed compound gauge read with care: 1 inHg; a thermistor gauge: 15 % (common practice, no source). */
const BOURDON: Accuracy = { kind: "limit", limit: unitSize("inHg") };
const THERMISTOR: Accuracy = { kind: "percent-of-reading", percent: 15 };
/** Metal of a system in a shop against one thermometer, K (common practice, no source). */
const TEMPERATURE_LIMIT = 3;

export const residualCalculation = defineCalculation({
  name: "residual",
  title: "Refrigerant that is still in a system as vapour at the vacuum reached",
  fields: {
    ...substanceFields,
    volume: vesselFields.volume,
    volumeLimit: optional(
      quantity("ratio", "How far the volume may be off, as a part of it; none if left out", {
        from: 0,
        to: 1,
      }),
    ),
    T: quantity("temperature", "Temperature of the system", TEMPERATURES),
    vacuum: optional(vacuum("Vacuum reached; either this or pressure")),
    pressure: optional(pressure("Pressure reached; either this or vacuum")),
    gauge: optional(accuracy("pressure-difference", "Accuracy of the gauge")),
  },
  output,
  cautions: [cautions.outgassing, cautions.ports, cautions.rules],
  sources: ["m = V ρ(T, p)", "40 CFR 82 subpart B, appendix F 6.1: 102 mmHg below atmosphere"],
  run({ fluid, blend, volume, volumeLimit = 0, T, vacuum: deep, pressure: read, gauge }, air) {
    const substance = substanceOf({ fluid, blend });
    if (substance.kind === "invalid") return substance;
    const reading = deep ?? read;
    if (reading === undefined || (deep && read)) {
      const what = reading === undefined ? "neither vacuum nor pressure" : "both";
      return invalidInput(issue("vacuum", what, "either vacuum or pressure"));
    }
    const material = materialOf(substance.moles);
    const class_ = gauge ?? (reading.fromAir ? BOURDON : THERMISTOR);
    const onScale = reading.fromAir ? reading.p - air.p : reading.p;
    const instrument = instrumentUncertainty(class_, onScale).u;
    const u = reading.fromAir ? Math.hypot(instrument, air.u) : instrument;
    const size = { value: volume, u: rectangular(volumeLimit * volume) };
    const at = { value: T, u: rectangular(TEMPERATURE_LIMIT) };
    const asked = { material, volume: size, T: at };
    const found = residualVapour({ ...asked, p: { value: reading.p, u } });
    if (found.kind === "failed") return noBulk(substance.name, found);
    const p = requiredPressure(air.p);
    const there = residualVapour({ ...asked, p: { value: p, u: 0 } });
    const isVapour = found.kind === "vapour";
    // Gauge and requirement count from the same air: only the instrument parts them.
    const uBelow = reading.fromAir ? instrument : Math.hypot(instrument, air.u);
    return {
      kind: "answer",
      result: {
        phase: found.kind,
        mass: isVapour ? found.mass : found.leastMass,
        p: reading.p,
        contributions: isVapour ? [...found.contributions] : [],
        required: {
          p,
          ...(there.kind === "vapour" && { mass: there.mass }),
          verdict: vacuumReached({ value: reading.p, u: uBelow }, air.p),
        },
      },
      ...(isVapour && { uncertainty: { mass: found.u } }),
      sources: [...substanceSources(substance), ...pairSources(material)],
      assumptions: [
        "Vapour of this refrigerant alone at one temperature. What is dissolved in the oil is not counted and comes out later.",
        `The temperature is taken as good to ${TEMPERATURE_LIMIT} K (common practice, no source).`,
        ...(isVapour
          ? []
          : [
              "At this pressure liquid may be inside: the mass given is the least, there is no most.",
            ]),
        ...estimateSentences(material),
        ...airAssumptions(air),
      ],
    };
  },
});
