import { z } from "zod";
import { standardPressure } from "../air/index.ts";
import type { LocalAir } from "../service/index.ts";
import { createRunWork, runVehicle, type Start } from "../vehicle/index.ts";
import { airAssumptions } from "./air-fields.ts";
import { type InvalidInput, invalidInput, type Issue } from "./answer.ts";
import { cautions } from "./cautions.ts";
import { defineCalculation } from "./definition.ts";
import { choice, count, type Field, quantity } from "./field.ts";
import { substanceSources } from "./substance-field.ts";
import { askedOf, MODEL_SOURCES, runCautions, standingView } from "./vehicle.ts";
import { noPack, readingFields, readingsView, stateFields } from "./vehicle-answer.ts";
import { caseAssumptions, vehicleFields } from "./vehicle-fields.ts";

/** Altitudes of roads, m. */
const altitude = quantity("length", "Altitude", { from: -400, to: 5000 });

/** Quantities along which a series may run, each read by its own field. */
const axes = {
  ambient: vehicleFields.ambient,
  humidity: vehicleFields.humidity,
  speed: vehicleFields.speed,
  engineSpeed: vehicleFields.engineSpeed,
  blower: vehicleFields.blower,
  recirculation: vehicleFields.recirculation,
  pulldown: vehicleFields.pulldown,
  charge: vehicleFields.charge,
  air: vehicleFields.air,
  altitude,
} satisfies Readonly<Record<string, Field<number | undefined>>>;
type Axis = keyof typeof axes;
const axisNames = Object.keys(axes) as [Axis, ...Axis[]];

/** An end of the series: read when it is known along what. */
const end = (says: string): Field<number | string> => ({
  schema: z
    .union([z.number(), z.string().max(80)])
    .describe(
      `${says}: a number in SI or a text with a unit, as the field named in "over" takes it`,
    ),
  required: true,
  read: (raw) => ({ kind: "value", value: typeof raw === "string" ? raw : Number(raw) }),
});

const point = z.strictObject({
  at: z.number().describe("Value of the quantity, SI"),
  ...stateFields,
  ...z.strictObject(readingFields).partial().shape,
  resting: z.number().optional().describe("Resting pressure, Pa, of a system that stops"),
});
const output = z.strictObject({ over: z.enum(axisNames), points: z.array(point) });

function readEnds(
  over: Axis,
  from: number | string,
  to: number | string,
  air: number,
): readonly [number, number] | InvalidInput {
  const issues: Issue[] = [];
  const values = (
    [
      ["from", from],
      ["to", to],
    ] as const
  ).map(([name, raw]) => {
    const read = axes[over].read(raw, name, air);
    if (read.kind === "value") return read.value ?? 0;
    issues.push(...read.issues);
    return 0;
  });
  const [first = 0, last = 0] = values;
  return issues.length > 0 ? invalidInput(...issues) : [first, last];
}

/** Air of an altitude; only its pressure is used along a series. */
function airAt(value: number, air: LocalAir): LocalAir {
  const standard = standardPressure(value);
  return standard.kind === "pressure" ? { ...air, p: standard.p } : air;
}

export const sweepCalculation = defineCalculation({
  name: "sweep",
  title: "What a vehicle's gauges and vents should read along a changing condition",
  fields: {
    ...vehicleFields,
    over: choice("The quantity that changes", axisNames),
    from: end("Its first value"),
    to: end("Its last value"),
    steps: count("Points of the series", { from: 2, to: 200 }),
  },
  output,
  cautions: [cautions.running, cautions.equation, cautions.identity, cautions.rules],
  sources: MODEL_SOURCES,
  run({ over, from, to, steps, ...values }, air) {
    const ends = readEnds(over, from, to, air.p);
    if ("kind" in ends) return ends;
    const work = createRunWork();
    const points: z.infer<typeof point>[] = [];
    let start: Start | undefined;
    for (let k = 0; k < steps; k++) {
      const at = ends[0] + (k / (steps - 1)) * (ends[1] - ends[0]);
      const here = over === "altitude" ? values : { ...values, [over]: at };
      const asked = askedOf(here, over === "altitude" ? airAt(at, air) : air);
      if (asked.kind === "invalid") return asked;
      const run = runVehicle(asked.request, work, start);
      if (run.kind === "no-pack") return noPack(asked.substance.name, run);
      start = run.kind === "running" ? run.start : undefined;
      if (run.kind === "running") {
        points.push({ at, state: "running", converged: true, ...readingsView(run) });
      } else points.push({ at, ...standing(run) });
    }
    const asked = askedOf({ ...values, [over]: ends[0] }, air);
    if (asked.kind === "invalid") return asked;
    return {
      kind: "answer",
      result: { over, points },
      cautions: runCautions(asked.substance),
      sources: substanceSources(asked.substance),
      assumptions: [...caseAssumptions({ ...values, [over]: ends[0] }), ...airAssumptions(air)],
    };
  },
});

function standing(run: Parameters<typeof standingView>[0]) {
  const view = standingView(run);
  if (!view) throw new RangeError("a run that stands has a view");
  return view;
}
