import type { FieldSpec } from "../forms/spec.ts";

/** An interval in one condition. */
export const runSpecs: readonly FieldSpec[] = [
  { kind: "text", name: "name", label: "Name of the run", hint: "For instance: parked, product B." },
  {
    kind: "choice",
    name: "condition",
    label: "Condition",
    options: [
      { value: "parked-idle", label: "Parked at idle" },
      { value: "parked-raised-idle", label: "Parked, raised idle" },
      { value: "road-steady", label: "Road, steady speed" },
      { value: "road-mixed", label: "Road, mixed" },
    ],
  },
  {
    kind: "choice",
    name: "airSource",
    label: "Air source",
    options: [
      { value: "recirculation", label: "Recirculation" },
      { value: "outside", label: "Outside air" },
      { value: "unknown", label: "Not known" },
    ],
  },
  {
    kind: "choice",
    name: "blower",
    label: "Blower",
    options: [
      { value: "low", label: "Low" },
      { value: "medium", label: "Medium" },
      { value: "high", label: "High" },
      { value: "unknown", label: "Not known" },
    ],
  },
  { kind: "substance", name: "charged", label: "Refrigerant in the vehicle" },
  { kind: "text", name: "note", label: "Remark", long: true, optional: true },
  { kind: "when", name: "when", label: "When it began", optional: true },
];

/** Trace and interval, for corrections; at a first entry they come from the proposal. */
export const runTraceSpecs: readonly FieldSpec[] = [
  ...runSpecs,
  { kind: "text", name: "trace", label: "Trace (entry)", optional: true, shown: (d) => (d["trace"] ?? "") !== "" },
  { kind: "text", name: "from", label: "From, by the file’s clock", optional: true, shown: (d) => (d["trace"] ?? "") !== "" },
  { kind: "text", name: "to", label: "To, by the file’s clock", optional: true, shown: (d) => (d["trace"] ?? "") !== "" },
];
