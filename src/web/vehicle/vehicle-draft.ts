import { type FieldDraft, fieldDraft } from "../fields/field-draft.ts";

const drafts = new Map<string, FieldDraft>();

/** The fields of this page: one set for the device, and one for each trial. */
export function vehicleDraft(trial?: string): FieldDraft {
  const key = trial === undefined ? "vehicle" : `vehicle ${trial}`;
  const draft = drafts.get(key) ?? fieldDraft(key, "vehicle");
  drafts.set(key, draft);
  return draft;
}
