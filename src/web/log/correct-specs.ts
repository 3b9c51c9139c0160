import {
  type Entry,
  quantityDimension,
  quantityNames,
  type ReadingQuantity,
} from "../../trial/index.ts";
import type { FieldSpec } from "../forms/spec.ts";
import { detectorSpecs } from "../identify/sample-specs.ts";
import { kinds } from "../plan/kinds.ts";
import { runTraceSpecs } from "../traces/run-specs.ts";
import { emptySpecs, transferSpecs } from "../transfers/transfer-specs.ts";
import { noteSpecs } from "../walk/note-specs.ts";

const readingSpecs = (quantity: ReadingQuantity): readonly FieldSpec[] => [
  {
    kind: "quantity",
    name: "value",
    signed: true,
    label: quantityNames[quantity],
    dimensions: [quantityDimension[quantity]],
    unit: { us: "", si: "" },
  },
  {
    kind: "choice",
    name: "form",
    label: "How it stands in time",
    options: [
      { value: "steady", label: "Steady" },
      { value: "lowest", label: "Lowest of the swing" },
      { value: "highest", label: "Highest of the swing" },
    ],
  },
  {
    kind: "pick",
    name: "instrument",
    label: "Instrument",
    options: (view) => view.instruments.map(({ id, name }) => ({ value: id, label: name })),
    none: "None listed",
    optional: true,
  },
  {
    kind: "pick",
    name: "run",
    label: "Run it belongs to",
    options: (view) => view.runs.map(({ id, name }) => ({ value: id, label: name })),
    none: "No run recorded",
    optional: true,
  },
  { kind: "text", name: "note", label: "Remark", long: true, optional: true },
  { kind: "when", name: "when", label: "When it was read", optional: true },
];

/** The fields in which an entry can be corrected; none for what can only be withdrawn. */
export function correctSpecs(entry: Entry): readonly FieldSpec[] {
  switch (entry.type) {
    case "reading-taken":
      return readingSpecs(entry.body.quantity);
    case "transfer-posted":
      return transferSpecs;
    case "vessel-found-empty":
      return emptySpecs;
    case "run-recorded":
      return runTraceSpecs;
    case "note-written":
      return noteSpecs;
    case "trace-imported":
    case "stream-opened":
    case "samples-received":
    case "item-confirmed":
    case "claim-read":
    case "log-redacted":
      return [];
    case "sample-tested":
      // Percentages are a list, which this form does not show: such an entry is withdrawn and made anew.
      return entry.body.parts === undefined ? detectorSpecs : [];
    case "trial-opened":
    case "vehicle-described":
    case "instrument-listed":
    case "product-listed":
    case "vessel-listed":
      return Object.values(kinds).find(({ type }) => type === entry.type)?.specs ?? [];
  }
}

/** Parts of the body that the form does not show and a correction must carry on. */
export function keptParts(
  entry: Entry,
  specs: readonly FieldSpec[],
): Readonly<Record<string, unknown>> {
  const asked = new Set(specs.map(({ name }) => name.split(".")[0]));
  return Object.fromEntries(Object.entries(entry.body).filter(([name]) => !asked.has(name)));
}
