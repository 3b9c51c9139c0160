import { z } from "zod";
import type { LocalAir } from "../service/index.ts";
import { invalidInput, issue, type InvalidInput, type NoAnswer } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { optional, pressure, quantity } from "./field.ts";
import { state, type StateResult } from "./state.ts";
import { TEMPERATURES } from "./saturation.ts";
import { substanceFields } from "./substance-field.ts";

const PLACES = ["suction", "discharge", "liquid", "evaporator-inlet"] as const;

const corner = z.strictObject({
  place: z
    .enum(PLACES)
    .describe("Vapour entering the compressor, leaving it, liquid, entering the evaporator"),
  T: z.number().describe("Temperature, K"),
  p: z.number().describe("Absolute pressure, Pa"),
  h: z.number().describe("Enthalpy, J/kg"),
  s: z.number().describe("Entropy, J/(kg K)"),
  q: z.number().nullable().describe("Vapour mass fraction; only in two phases"),
});
const output = z.strictObject({
  corners: z.array(corner).describe("The four corners, in the order of flow"),
  compression: z
    .enum(["isentropic", "measured"])
    .describe("Whether the discharge temperature was given or is that of a lossless compressor"),
  runs: z
    .boolean()
    .describe("Vapour enters the compressor and liquid the expansion device, as the loop needs"),
  cooling: z
    .number()
    .nullable()
    .describe("Heat taken up in the evaporator, J/kg; none if not running"),
  work: z.number().nullable().describe("Work on the refrigerant, J/kg; none if not running"),
  cop: z.number().nullable().describe("Cooling per work; none where the work is not positive"),
});

type Corner = z.infer<typeof corner>;

/** What `state` is asked with: SI. */
interface Given {
  readonly T?: number;
  readonly p: number;
  readonly h?: number;
  readonly s?: number;
}

/** A corner and what its state rests on, or why there is none. */
type Found =
  | {
      readonly kind: "corner";
      readonly corner: Corner;
      readonly phase: StateResult["phase"];
      readonly sources: readonly string[];
      readonly assumptions: readonly string[];
    }
  | InvalidInput
  | NoAnswer;

function cornerAt(
  place: Corner["place"],
  substance: Readonly<Record<string, unknown>>,
  { p, ...other }: Given,
  air: LocalAir,
): Found {
  const outcome = state.run({ ...substance, ...other, p: { p, fromAir: false } }, air);
  if (outcome.kind !== "answer") return outcome;
  // The definition of `state` gives every answer this shape.
  const { T, h, s, q, phase, p: at } = outcome.result as StateResult;
  return {
    kind: "corner",
    phase,
    corner: { place, T, p: at, h, s, q },
    sources: outcome.sources ?? [],
    assumptions: outcome.assumptions ?? [],
  };
}

/** Neither liquid nor the dense fluid of a gas cooler. */
const GASES: ReadonlySet<StateResult["phase"]> = new Set(["gas", "supercritical-gas"]);

/** What a pair of readings says against the loop. */
const WRONG = {
  suction:
    "At these readings liquid enters the compressor, which can break it: check gauge, thermometer and what is in the system.",
  liquid:
    "At these readings the liquid line holds vapour: low charge, another refrigerant, air, or a thermometer without good contact.",
} as const;

export const cycle = defineCalculation({
  name: "cycle",
  title: "The refrigerant's loop from two pressures and the temperatures of its lines",
  fields: {
    ...substanceFields,
    low: pressure("Low-side pressure"),
    high: pressure("High-side pressure"),
    suction: quantity("temperature", "Temperature of the suction line", TEMPERATURES),
    liquid: quantity("temperature", "Temperature of the liquid line", TEMPERATURES),
    discharge: optional(
      quantity(
        "temperature",
        "Temperature of the discharge line; a lossless compressor if left out",
        TEMPERATURES,
      ),
    ),
  },
  output,
  cautions: [cautions.running, cautions.equation],
  sources: [],
  run({ fluid, blend, low, high, suction, liquid, discharge }, air) {
    if (!(low.p < high.p)) {
      return invalidInput(issue("high", high.p, "a pressure above the low side"));
    }
    const substance = { fluid, blend };
    const one = cornerAt("suction", substance, { T: suction, p: low.p }, air);
    if (one.kind !== "corner") return one;
    const compressed =
      discharge === undefined ? { s: one.corner.s, p: high.p } : { T: discharge, p: high.p };
    const two = cornerAt("discharge", substance, compressed, air);
    if (two.kind !== "corner") return two;
    const three = cornerAt("liquid", substance, { T: liquid, p: high.p }, air);
    if (three.kind !== "corner") return three;
    const four = cornerAt("evaporator-inlet", substance, { h: three.corner.h, p: low.p }, air);
    if (four.kind !== "corner") return four;
    const wrong = [
      ...(one.phase === "liquid" ? [WRONG.suction] : []),
      ...(GASES.has(three.phase) ? [WRONG.liquid] : []),
    ];
    const runs = wrong.length === 0;
    const cooling = one.corner.h - four.corner.h;
    const work = two.corner.h - one.corner.h;
    return {
      kind: "answer",
      result: {
        corners: [one.corner, two.corner, three.corner, four.corner],
        compression: discharge === undefined ? ("isentropic" as const) : ("measured" as const),
        runs,
        cooling: runs ? cooling : null,
        work: runs ? work : null,
        cop: runs && work > 0 ? cooling / work : null,
      },
      cautions: wrong,
      sources: one.sources,
      assumptions: [
        "No pressure is lost along the lines, and the expansion device neither takes up nor gives off heat.",
        ...(discharge === undefined
          ? ["The compressor has no losses: a real one discharges hotter and takes more work."]
          : ["The compressor gives off no heat: all its work stays in the refrigerant."]),
        ...one.assumptions,
      ],
    };
  },
});
