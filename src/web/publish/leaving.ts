import { computed, signal } from "@preact/signals";
import {
  exportTrial,
  type Hidable,
  parseExport,
  type Redacted,
  redacted,
  type StoredEvent,
} from "../../trial/index.ts";
import { events } from "../shell/log-keeper.ts";

/** What the publisher hides; it stays on this device and is asked anew each time the app is opened. */
export const hidden = signal<readonly Hidable[]>([]);
export const hiddenWords = signal("");

const words = computed(() =>
  hiddenWords.value
    .split(",")
    .map((word) => word.trim())
    .filter((word) => word.length > 2),
);
export const redacting = computed(() => hidden.value.length + words.value.length > 0);

/** The log as it leaves the device, and what was replaced in it. */
export const redaction = computed<Redacted | undefined>(() => {
  if (!redacting.value || events.value.length === 0) return undefined;
  const log = parseExport(exportTrial(events.value));
  if (log.kind === "invalid") return undefined;
  return redacted(log.events, { hide: hidden.value, words: words.value });
});

/** Undefined when it has to be redacted and cannot be: then nothing leaves. */
export const leaving = computed<readonly StoredEvent[] | undefined>(() =>
  redacting.value ? redaction.value?.events : events.value,
);
