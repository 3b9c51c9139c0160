import type { TrialView } from "../../trial/index.ts";
import type { Option } from "./spec.ts";

/** Label refrigerants a vehicle may carry, by fluid id. */
export const labelRefrigerants: readonly Option[] = [
  { value: "R134a", label: "R134a" },
  { value: "R1234yf", label: "R1234yf" },
  { value: "R12", label: "R12" },
  { value: "R152a", label: "R152a" },
  { value: "R744", label: "R744 (carbon dioxide)" },
];

/** What a vessel may hold in this trial: the label refrigerant first, then products, then other fluids. */
export function substanceOptions(view: TrialView): readonly Option[] {
  const label = view.vehicle?.labelRefrigerant;
  const fluids = labelRefrigerants
    .filter(({ value }) => value !== label)
    .map(({ value, label: name }) => ({ value: `fluid:${value}`, label: name }));
  return [
    ...(label === undefined ? [] : [{ value: `fluid:${label}`, label: `${label} (label)` }]),
    ...view.products.map(({ id, name }) => ({ value: `product:${id}`, label: name })),
    ...fluids,
  ];
}
