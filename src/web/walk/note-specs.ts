import type { FieldSpec } from "../forms/spec.ts";

export const noteSpecs: readonly FieldSpec[] = [
  { kind: "text", name: "text", label: "Note", hint: "What was seen, heard, repaired.", long: true },
  { kind: "when", name: "when", label: "When it happened", optional: true },
];
