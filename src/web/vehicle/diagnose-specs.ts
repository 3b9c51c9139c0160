import type { QuantitySpec } from "../fluids/fields.tsx";
import { typedQuantity } from "../fluids/fields.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";

const temperature = { dimension: "temperature", usual: { us: "°F", si: "°C" } } as const;
const pressure = { dimension: "pressure", usual: { us: "psig", si: "bar(g)" } } as const;
const difference = {
  dimension: "temperature-difference",
  usual: { us: "Δ°F", si: "K" },
} as const;

interface ReadSpec extends QuantitySpec {
  /** Name in the calculation's readings. */
  readonly reading: string;
  readonly hint?: string;
}

const spec = (
  reading: string,
  label: string,
  how: Pick<QuantitySpec, "dimension" | "usual">,
  hint?: string,
): ReadSpec => ({ name: `read-${reading}`, reading, label, ...how, ...(hint && { hint }) });

/** Readings that any vehicle gives, and those that take a clamp thermometer or a long rest. */
export const firstReadings: readonly ReadSpec[] = [
  spec("low", "Low side", pressure, "Steady. While a clutch cycles type its two ends instead."),
  spec("high", "High side", pressure, "While the clutch is engaged."),
  spec("vent", "Vent", temperature),
];
export const moreReadings: readonly ReadSpec[] = [
  spec("lowest", "Lowest low side, cycling", pressure),
  spec("highest", "Highest low side, cycling", pressure),
  spec("liquidLine", "Liquid line at the condenser", temperature),
  spec("subcooling", "Subcooling", difference),
  spec("superheat", "Superheat at the evaporator", difference),
  spec("discharge", "Discharge line", temperature, "Hot: clamp the sensor on before the start."),
  spec("duty", "Clutch engaged, share of time", {
    dimension: "ratio",
    usual: { us: "%", si: "%" },
  }),
  spec("static", "Static pressure", pressure, "Engine off for two hours or more."),
  spec("metal", "Metal’s temperature beside it", temperature),
];

/** What is typed, as the calculation reads it. */
export function typedReadings(draft: FieldDraft): Readonly<Record<string, string>> {
  return Object.fromEntries(
    [...firstReadings, ...moreReadings].flatMap((one) => {
      const value = typedQuantity(one, draft);
      return value === undefined ? [] : [[one.reading, value]];
    }),
  );
}
