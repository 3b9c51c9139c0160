import { z } from "zod";
import published from "../../../data/facts/recovery.json";
import { type FluidId, isFluidId } from "../../fluids/index.ts";
import {
  type Fact,
  numbersFile,
  printedNumber,
  type PrintedNumber,
  sourced,
  trusts,
} from "../substances/fact.ts";

const names = [
  "fillShare",
  "fillTemperature",
  "deviceTemperature",
  "warmTemperature",
  "transportTemperature",
  "servicePressureFactor",
  "recoveredShare",
  "recoveryTime",
  "vacuumBelowAir",
  "oilMeasure",
] as const;
const file = numbersFile(names)
  .extend({
    airLimits: z.strictObject({
      R12: z.strictObject({
        source: z.string(),
        trust: z.enum(trusts),
        unit: z.strictObject({ T: z.literal("°F"), p: z.literal("psig") }),
        note: z.string(),
        table: z.array(z.tuple([z.number(), z.number()])).min(2),
      }),
      margins: z.array(printedNumber.extend({ fluid: z.string().refine(isFluidId) })),
      general: printedNumber,
    }),
  })
  .parse(published);

const fact = (found: PrintedNumber): PrintedNumber => sourced(found, file.sources);

/** A number that recovery is held against: SI, with its printed form and source. */
export const recoveryNumber = (name: (typeof names)[number]): PrintedNumber =>
  fact(file.numbers[name]);

const FAHRENHEIT = 5 / 9;
const PSI = 6894.757293168;
/** Air at which the published table's gauges stand, Pa. */
const TABLE_AIR = 101325;

/** Published container pressures of R12, above which there is air inside: K and Pa absolute, rising. */
export const containerTable: readonly { readonly T: number; readonly p: number }[] =
  file.airLimits.R12.table.map(([T, p]) => ({
    T: (T + 459.67) * FAHRENHEIT,
    p: p * PSI + TABLE_AIR,
  }));
export const containerTableSource = sourced(file.airLimits.R12, file.sources).source;

/** What a container may show above saturation, Pa: of the fluid's own table, else carried over from R134a's. */
export function airMargin(fluid: FluidId | undefined): Fact<number> & { readonly own: boolean } {
  const own = file.airLimits.margins.find((margin) => margin.fluid === fluid);
  return { ...fact(own ?? file.airLimits.general), own: own !== undefined };
}
