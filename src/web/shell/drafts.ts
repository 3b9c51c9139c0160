import { signal } from "@preact/signals";

/** Half-typed inputs by field name: plain text, as it stands on the screen. */
export type Draft = Readonly<Record<string, string>>;

/** All drafts of the open trial, by the form they belong to. Kept on the device with every keystroke. */
export const drafts = signal<Readonly<Record<string, Draft>>>({});

type Keep = (value: Readonly<Record<string, Draft>>) => Promise<void>;
let keep: Keep = () => Promise.resolve();
let writing: Promise<void> | undefined;
let again = false;

export function startDrafts(stored: unknown, keeper: Keep): void {
  drafts.value =
    typeof stored === "object" && stored !== null ? (stored as Record<string, Draft>) : {};
  keep = keeper;
}

/** One write at a time; what changed meanwhile goes into the next one. */
function write(): void {
  if (writing) {
    again = true;
    return;
  }
  writing = keep(drafts.value)
    .catch(() => undefined)
    .then(() => {
      writing = undefined;
      if (again) {
        again = false;
        write();
      }
    });
}

export const draftOf = (key: string): Draft => drafts.value[key] ?? {};

export function changeDraft(key: string, change: Draft): void {
  drafts.value = { ...drafts.value, [key]: { ...draftOf(key), ...change } };
  write();
}

export function forgetDraft(key: string): void {
  drafts.value = Object.fromEntries(Object.entries(drafts.value).filter(([name]) => name !== key));
  write();
}
