import { z } from "zod";
import published from "../../data/facts/operating-r134a.json";

const column = z.array(z.number());
const range = z.strictObject({ from: z.number(), to: z.number() });
const pressureColumns = z.strictObject({ unit: z.literal("kPa(g)"), from: column, to: column });
const axis = z.strictObject({ unit: z.literal("°C"), values: column });

const fileSchema = z.strictObject({
  schema: z.literal(1),
  title: z.string(),
  caution: z.string(),
  sources: z.record(z.string(), z.string()),
  transcribed: z.string(),
  checked: z.string(),
  conditions: z.array(z.string()),
  pressures: z.strictObject({
    fluid: z.string(),
    source: z.string(),
    ambient: axis,
    high: pressureColumns,
    low: pressureColumns,
  }),
  vent: z.strictObject({
    fluid: z.string(),
    source: z.string(),
    inlet: axis,
    bands: z.array(
      z.strictObject({
        humidity: z.strictObject({ unit: z.literal("%"), from: z.number(), to: z.number() }),
        unit: z.literal("°C"),
        from: column,
        to: column,
      }),
    ),
  }),
  cyclingSwitch: z.strictObject({
    unit: z.literal("kPa(g)"),
    settings: z.array(z.strictObject({ source: z.string(), open: range, close: range })),
  }),
});

/** Published running figures of R134a vehicles, in the units of print; the file names its sources. */
export const operatingData = fileSchema.parse(published);

/** Full text of a source key of the file. */
export function operatingSource(key: string): string {
  const text = operatingData.sources[key];
  if (text === undefined) throw new RangeError(`operating table: no source "${key}"`);
  return text;
}
