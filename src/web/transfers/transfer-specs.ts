import { lostAccount, type TrialView, vehicleAccount } from "../../trial/index.ts";
import type { Dimension } from "../../units/index.ts";
import type { FieldSpec, Option } from "../forms/spec.ts";
import { scales } from "../plan/vessel-specs.ts";
import type { Draft } from "../shell/drafts.ts";

const mass: readonly Dimension[] = ["mass"];
const unit = { us: "lb", si: "kg" };
const small = { us: "oz", si: "g" };

export const vesselOptions = (view: TrialView): readonly Option[] => [
  { value: vehicleAccount, label: view.vehicle?.name ?? "The vehicle" },
  ...view.vessels.map(({ id, name }) => ({ value: id, label: name })),
];

const destinations = (view: TrialView): readonly Option[] => [
  ...vesselOptions(view),
  { value: lostAccount, label: "Lost: released, unavoidable or not" },
];

const on = (name: string) => (draft: Draft) => draft[name] === "yes";

const weighing = (side: "source" | "destination"): readonly FieldSpec[] => {
  const name = `${side}Weighing`;
  const shown = on(`_${side}`);
  const what = side === "source" ? "The source" : "The destination";
  return [
    {
      kind: "flag",
      name: `_${side}`,
      label: `${what} stood on a scale`,
      ...(side === "source" && { group: "How the mass is known" }),
    },
    { kind: "quantity", name: `${name}.before`, label: `${what}, before`, dimensions: mass, unit, shown },
    { kind: "quantity", name: `${name}.after`, label: `${what}, after`, dimensions: mass, unit, shown },
    {
      kind: "pick",
      name: `${name}.instrument`,
      label: "Scale",
      options: scales,
      none: "No scale listed yet",
      optional: true,
      shown,
    },
  ];
};

const estimate = (name: "stated" | "purged", label: string, hint: string): readonly FieldSpec[] => {
  const shown = on(`_${name}`);
  return [
    { kind: "flag", name: `_${name}`, label, hint },
    { kind: "quantity", name: `${name}.mass`, label: "Estimated mass", dimensions: mass, unit: small, shown },
    {
      kind: "quantity",
      name: `${name}.limit`,
      label: "It could be wrong by, ±",
      dimensions: mass,
      unit: small,
      shown,
    },
  ];
};

/** Mass from one vessel to another, with the evidence for it. */
export const transferSpecs: readonly FieldSpec[] = [
  { kind: "pick", name: "from", label: "From", options: vesselOptions, none: "List a vessel first" },
  { kind: "pick", name: "to", label: "To", options: destinations, none: "List a vessel first" },
  ...weighing("source"),
  ...weighing("destination"),
  ...estimate("stated", "Nothing was weighed: state an estimate", "With how far it could be off."),
  ...estimate("purged", "Some of it left the hoses on the way", "Part of what the source gave: it is booked as lost."),
  {
    kind: "choice",
    name: "phase",
    label: "It went over as",
    options: [
      { value: "liquid", label: "Liquid" },
      { value: "vapour", label: "Vapour" },
      { value: "unknown", label: "Not known" },
    ],
    optional: true,
    group: "More",
  },
  { kind: "text", name: "note", label: "Remark", long: true, optional: true },
  { kind: "when", name: "when", label: "When it happened", optional: true },
];

/** Switches follow what a typed or corrected body holds. */
export const transferDraft = (draft: Draft): Draft => ({
  ...draft,
  ...(draft["sourceWeighing.before"] !== undefined && { _source: "yes" }),
  ...(draft["destinationWeighing.before"] !== undefined && { _destination: "yes" }),
  ...(draft["stated.mass"] !== undefined && { _stated: "yes" }),
  ...(draft["purged.mass"] !== undefined && { _purged: "yes" }),
});

export const emptySpecs: readonly FieldSpec[] = [
  { kind: "pick", name: "vessel", label: "Which vessel", options: vesselOptions, none: "List a vessel first" },
  {
    kind: "text",
    name: "evidence",
    label: "How you know that it is empty",
    hint: "For instance: pulled to 0.3 mbar and weighed at its tare.",
    long: true,
  },
  { kind: "when", name: "when", label: "When it was found", optional: true },
];
