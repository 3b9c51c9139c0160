import { z } from "zod";
import type {
  Band,
  Note,
  NoPack,
  Running,
  StopReason,
  UnresolvedReason,
} from "../vehicle/index.ts";
import type { NoAnswer } from "./answer.ts";

const span = z.strictObject({ from: z.number(), to: z.number() });
const airState = z.strictObject({
  T: z.number().describe("K"),
  humidityRatio: z.number().describe("kg of water per kg of dry air"),
});

/** Readings that a sweep repeats at every point. */
export const readingFields = {
  low: z.number().describe("Low side, mean, absolute, Pa"),
  lowRange: span.optional().describe("Ends of a cycling low side, absolute, Pa"),
  high: z.number().describe("High side, mean, absolute, Pa"),
  highOn: z.number().optional().describe("High side while a cycling clutch is engaged, Pa"),
  vent: z.number().describe("Air from the vents, K"),
  capacity: z.number().describe("Heat taken from the air, W"),
  power: z.number().describe("At the compressor's shaft, mean, W"),
  cop: z.number().describe("Capacity over power"),
  discharge: z.number().describe("Gas behind the compressor, K"),
  superheat: z.number().describe("At the evaporator's outlet, K"),
  subcooling: z.number().describe("At the condenser's outlet, K"),
  duty: z.number().describe("Share of time or of displacement"),
  massFlow: z.number().describe("kg/s"),
  regime: z
    .enum(["balanced", "starved", "flooded", "gas"])
    .describe("Accumulator or receiver holds some liquid, none, or is full; or nothing condenses"),
};
export const readingsSchema = z.strictObject(readingFields);

const charge = z
  .strictObject({
    condenser: z.number(),
    evaporator: z.number(),
    liquidLine: z.number(),
    dischargeLine: z.number(),
    suctionLine: z.number(),
    bufferVapour: z.number(),
    bufferLiquid: z.number(),
  })
  .describe("Where the refrigerant is, kg; the buffer is the accumulator or receiver");

export const runSchema = readingsSchema.extend({
  ventHumidity: z.number().describe("Humidity ratio of the air from the vents"),
  charge,
  returnAir: airState.describe("Air that returns from the cabin"),
  coilAir: airState.describe("Air on the evaporator"),
  coilSurface: z.number().describe("Coldest wet surface of the evaporator, K"),
  wettedShare: z.number().describe("Share of the evaporator that boils refrigerant"),
  cycle: z
    .array(
      z.strictObject({
        at: z.string().describe("Place in the circuit"),
        p: z.number().describe("Pa"),
        h: z.number().describe("J/kg"),
        T: z.number().describe("K"),
      }),
    )
    .describe("The cycle on the pressure–enthalpy chart, in the direction of flow"),
});

export const bandSchema = z
  .record(z.string(), span)
  .describe("Two standard deviations from the parameters' ranges and the model's own error");

/** What is the same in a state that runs and in one that does not. */
export const stateFields = {
  state: z.enum(["running", "stopped", "unresolved"]),
  converged: z.boolean(),
  reason: z.string().optional().describe("Why it does not run, or why no state was found"),
  message: z.string().optional(),
};

/** The readings of a run. */
export function readingsView(run: Running): z.infer<typeof readingsSchema> {
  const { low, lowRange, high, highOn, vent, capacity, power, cop, discharge } = run;
  const { superheat, subcooling, duty, massFlow, regime } = run;
  return {
    ...{ low, high, vent, capacity, power, cop, discharge },
    ...{ superheat, subcooling, duty, massFlow, regime },
    ...(lowRange && { lowRange: { ...lowRange } }),
    ...(highOn !== undefined && { highOn }),
  };
}

/** The whole of a run. */
export function runView(run: Running): z.infer<typeof runSchema> {
  const { ventHumidity, coilSurface, wettedShare } = run;
  return {
    ...readingsView(run),
    ...{ ventHumidity, coilSurface, wettedShare },
    charge: { ...run.charge },
    returnAir: { ...run.returnAir },
    coilAir: { ...run.coilAir },
    cycle: run.cycle.map((point) => ({ ...point })),
  };
}

export const bandView = ({ limits }: Band): z.infer<typeof bandSchema> =>
  Object.fromEntries(Object.entries(limits).map(([name, ends]) => [name, { ...ends }]));

/** Why a system does not run, in words. */
export const STOPPED: Readonly<Record<StopReason, string>> = {
  "resting-pressure-too-low":
    "The resting pressure lies below what lets the compressor start: too little refrigerant, one with too low a pressure, or too cold a day.",
  "no-load":
    "The air is no warmer than the coil would be held: the control keeps the compressor off.",
  "high-pressure-trip":
    "No balance below the high-pressure switch: it would open. Too much heat, air or refrigerant, or too little air through the condenser.",
  "above-property-table":
    "No balance below the end of the property table, which lies near the critical point of this refrigerant.",
  "liquid-to-compressor":
    "The evaporator boils less than flows: liquid would reach the compressor. The model ends here.",
};

export const UNRESOLVED: Readonly<Record<UnresolvedReason, string>> = {
  "not-balanced": "No steady state was found, and none was ruled out.",
  "search-budget": "The search for a steady state was ended before it found or excluded one.",
};

/** Notes in words. */
export const NOTES: Readonly<Record<Note, string>> = {
  "low-side-held":
    "The control holds the low side: it tells nothing about charge or fluid, and a cycling gauge shows the range, not the mean.",
  "coil-may-ice": "Parts of the coil lie below 0 °C: it may ice up.",
  "discharge-hot": "The discharge is hotter than hoses are rated for (125 °C).",
  "discharge-above-equation":
    "The discharge is hotter than the highest temperature to which the equation of state is fitted.",
  "valve-wide-open":
    "The thermostatic valve stands wide open: its bulb is filled for another refrigerant, or the system is starved.",
  "valve-at-stop": "The thermostatic valve stands at its smallest opening.",
  starved:
    "Accumulator or receiver is empty: the answer hangs on internal volumes that no good baseline run can calibrate.",
  flooded:
    "Accumulator or receiver is full: real systems rise earlier than this model. Take it as a warning, not a prediction.",
  "gas-only": "Nothing or little condenses: qualitative only.",
  "least-duty":
    "The compressor is at its least duty: the coil may get colder than the control wants.",
  "estimated-mixing": "Mixing parameters of some pair are estimates.",
  "air-crude": "Air in the condenser is modelled crudely: take it as a warning, not a prediction.",
};

/** A fluid or blend that has no pack. */
export const noPack = (name: string, { reason, p }: NoPack): NoAnswer => ({
  kind: "no-answer",
  reason: reason === "not-converged" ? "not-converged" : "no-solution",
  message: `${name} cannot be followed between liquid and vapour over the pressures of a vehicle's system. Air or nitrogen left inside goes into \`air\`.`,
  numbers: { p },
});
