import { knownBlends, knownFluids, type TrialView } from "../../trial/index.ts";
import type { Option } from "./spec.ts";

/** What vehicle labels carry most, by fluid id: offered before the rest. */
const common = ["R134a", "R1234yf", "R12", "R152a", "R744"];

const optionOf = ({ id, name }: { id: string; name: string }): Option =>
  common.includes(id)
    ? { value: id, label: id, group: "Common on vehicle labels" }
    : { value: id, label: `${id} (${name})`, group: "Other pure fluids" };

let made: readonly Option[] | undefined;

/** Every pure fluid and named blend that can be computed; the common ones first. Made when first asked for. */
export function fluidOptions(): readonly Option[] {
  made ??= [
    ...common.flatMap((id) => knownFluids().filter((fluid) => fluid.id === id)),
    ...knownFluids().filter(({ id }) => !common.includes(id)),
  ]
    .map(optionOf)
    .concat(knownBlends().map((name) => ({ value: name, label: name, group: "Blends" })));
  return made;
}

/** What a vessel may hold in this trial: the label refrigerant first, then products, then other fluids. */
export function substanceOptions(view: TrialView): readonly Option[] {
  const label = view.vehicle?.labelRefrigerant;
  const fluids = fluidOptions()
    .filter(({ value }) => value !== label)
    .map((option) => ({ ...option, value: `fluid:${option.value}` }));
  const group = "In this trial";
  return [
    ...(label === undefined ? [] : [{ value: `fluid:${label}`, label: `${label} (label)`, group }]),
    ...view.products.map(({ id, name }) => ({ value: `product:${id}`, label: name, group })),
    ...fluids,
  ];
}
