import type { FieldSpec } from "../forms/spec.ts";
import type { Draft } from "../shell/drafts.ts";

const methodSpec: FieldSpec = {
  kind: "choice",
  name: "method",
  label: "What tested it",
  options: [
    {
      value: "combustible-gas-detector",
      label: "Combustible-gas detector",
      hint: "Answers to gas that burns.",
    },
    {
      value: "halogen-detector",
      label: "Halogen leak detector",
      hint: "Answers to fluorine and chlorine.",
    },
    { value: "identifier", label: "Refrigerant identifier", hint: "Shows percentages." },
  ],
};

const isIdentifier = (draft: Draft): boolean => draft["method"] === "identifier";
const isDetector = (draft: Draft): boolean =>
  draft["method"] !== undefined && draft["method"] !== "" && !isIdentifier(draft);

const respondedSpec: FieldSpec = {
  kind: "flag",
  name: "responded",
  label: "It responded",
  hint: "Leave it off when the detector stayed quiet.",
  shown: isDetector,
};

/** What identifiers of the trade show, as they name it. */
export const identifierParts = [
  { substance: "R134a", label: "R134a" },
  { substance: "R1234yf", label: "R1234yf" },
  { substance: "R12", label: "R12" },
  { substance: "R22", label: "R22" },
  { substance: "hydrocarbons", label: "Hydrocarbons" },
  { substance: "air", label: "Air" },
] as const;

const partSpecs = identifierParts.map(({ substance, label }, i): FieldSpec => ({
  kind: "number",
  name: `_${substance}`,
  label,
  suffix: "%",
  optional: true,
  shown: isIdentifier,
  ...(i === 0 && { group: "Percentages it showed" }),
}));

const behind: readonly FieldSpec[] = [
  {
    kind: "pick",
    name: "instrument",
    label: "Instrument",
    options: (view) => view.instruments.map(({ id, name }) => ({ value: id, label: name })),
    none: "None listed",
    optional: true,
  },
  { kind: "text", name: "note", label: "Remark", long: true, optional: true },
  { kind: "when", name: "when", label: "When it was tested", optional: true },
];

/** A detector's entry: the fields in which it can be corrected too. */
export const detectorSpecs: readonly FieldSpec[] = [methodSpec, respondedSpec, ...behind];

export const sampleSpecs: readonly FieldSpec[] = [
  methodSpec,
  respondedSpec,
  ...partSpecs,
  ...behind,
];
