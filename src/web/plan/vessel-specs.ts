import type { Option, FieldSpec } from "../forms/spec.ts";
import type { TrialView } from "../../trial/index.ts";
import type { Draft } from "../shell/drafts.ts";

export const scales = (view: TrialView): readonly Option[] =>
  view.instruments
    .filter(({ measures }) => measures === "mass")
    .map(({ id, name }) => ({ value: id, label: name }));

const holdsSomething = (draft: Draft): boolean => draft["_holds"] === "yes";

export const vesselSpecs: readonly FieldSpec[] = [
  {
    kind: "text",
    name: "name",
    label: "Vessel",
    hint: "What is painted or written on it: “R1”, “can 1”.",
  },
  {
    kind: "choice",
    name: "kind",
    label: "It is a",
    options: [
      { value: "can", label: "Can" },
      { value: "cylinder", label: "Recovery cylinder" },
      { value: "hose-set", label: "Hose set" },
      { value: "other", label: "Something else" },
    ],
  },
  {
    kind: "quantity",
    name: "tare",
    label: "Tare: its mass when empty",
    hint: "As you weighed it if you did; else as stamped.",
    dimensions: ["mass"],
    unit: { us: "lb", si: "kg" },
    optional: true,
  },
  {
    kind: "quantity",
    name: "waterCapacity",
    label: "Water capacity",
    hint: "As stamped, a mass of water or a volume: it sets how full the vessel may be.",
    dimensions: ["mass", "volume"],
    unit: { us: "lb", si: "kg" },
    optional: true,
  },
  {
    kind: "quantity",
    name: "ratedPressure",
    label: "Rated pressure",
    dimensions: ["pressure"],
    unit: { us: "psig", si: "bar(g)" },
    optional: true,
  },
  { kind: "flag", name: "flammableRated", label: "Its maker rates it for flammable refrigerant" },
  {
    kind: "text",
    name: "retestBy",
    label: "Retest due",
    hint: "The last day of its test as stamped, written as 2028-05-31. After it the cylinder must not be filled.",
    optional: true,
  },
  {
    kind: "flag",
    name: "_holds",
    label: "It holds refrigerant now",
    group: "Contents at the start",
  },
  { kind: "substance", name: "holds.substance", label: "What it holds", shown: holdsSomething },
  {
    kind: "quantity",
    name: "holds.mass",
    label: "Net mass inside",
    dimensions: ["mass"],
    unit: { us: "lb", si: "kg" },
    shown: holdsSomething,
  },
  {
    kind: "choice",
    name: "holds.basis",
    label: "How do you know?",
    options: [
      { value: "weighed", label: "Weighed" },
      { value: "declared", label: "Declared", hint: "label or somebody’s word" },
    ],
    shown: holdsSomething,
  },
  {
    kind: "pick",
    name: "holds.instrument",
    label: "Weighed with",
    options: scales,
    none: "No scale listed yet",
    optional: true,
    shown: (draft) => holdsSomething(draft) && draft["holds.basis"] === "weighed",
  },
];

/** A vessel's body as a form: what it holds was typed, so the switch for it is on. */
export const vesselDraft = (draft: Draft): Draft =>
  draft["holds.mass"] === undefined ? draft : { ...draft, _holds: "yes" };
