import { signal } from "@preact/signals";
import type { Draft } from "../shell/drafts.ts";
import { theStore } from "../shell/log-keeper.ts";

/** What stands in the fields of a page: kept on this device with every keystroke, never part of a trial. */
export interface FieldDraft {
  /** Before the ids of its fields and the names of its remembered units. */
  readonly prefix: string;
  /** Brings back what was typed last; called when the page opens first. */
  readonly start: () => Promise<void>;
  readonly change: (change: Draft) => void;
  readonly field: (name: string, initial?: string) => string;
}

/** @param key Under which the device keeps it. */
export function fieldDraft(key: string, prefix: string): FieldDraft {
  const draft = signal<Draft>({});
  let started = false;
  return {
    prefix,
    async start() {
      if (started) return;
      started = true;
      const stored = await theStore().drafts.recall(key);
      if (typeof stored === "object" && stored !== null) {
        draft.value = { ...(stored as Draft), ...draft.value };
      }
    },
    change(change) {
      draft.value = { ...draft.value, ...change };
      // A device without room keeps it on the screen only: no entry of a trial is lost by that.
      theStore()
        .drafts.keep(key, draft.value)
        .catch(() => undefined);
    },
    field: (name, initial = "") => draft.value[name] ?? initial,
  };
}
