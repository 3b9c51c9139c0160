import { type FieldDraft, fieldDraft } from "../fields/field-draft.ts";

const drafts = new Map<string, FieldDraft>();

/** The fields of this page: one set for the device, and one for each trial. */
export function vehicleDraft(trial?: string): FieldDraft {
  const key = trial === undefined ? "vehicle" : `vehicle ${trial}`;
  const draft = drafts.get(key) ?? fieldDraft(key, "vehicle");
  drafts.set(key, draft);
  return draft;
}

/** The same fields, empty ones beginning with other values. */
export const beginningWith = (
  draft: FieldDraft,
  usual: Readonly<Record<string, string>>,
): FieldDraft => ({
  ...draft,
  field: (name, initial) => draft.field(name, usual[name] ?? initial),
});
