import { signal } from "@preact/signals";
import type { Draft } from "../shell/drafts.ts";
import { theStore } from "../shell/log-keeper.ts";

/** What stands in the fields of the fluids page: kept on this device, never part of a trial. */
export const fluidDraft = signal<Draft>({});

const KEY = "fluids";
let started = false;

/** Brings back what was typed last; called when the page opens first. */
export async function startFluidDraft(): Promise<void> {
  if (started) return;
  started = true;
  const stored = await theStore().drafts.recall(KEY);
  if (typeof stored === "object" && stored !== null) {
    fluidDraft.value = { ...(stored as Draft), ...fluidDraft.value };
  }
}

export function changeFluidDraft(change: Draft): void {
  fluidDraft.value = { ...fluidDraft.value, ...change };
  // A device without room keeps it on the screen only: no entry of a trial is lost by that.
  theStore()
    .drafts.keep(KEY, fluidDraft.value)
    .catch(() => undefined);
}

export const fluidField = (name: string, initial = ""): string => fluidDraft.value[name] ?? initial;
