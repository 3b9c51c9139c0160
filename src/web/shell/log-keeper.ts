import { computed, signal } from "@preact/signals";
import { v7 as uuidv7 } from "uuid";
import { type BrowserStore, type DeviceStores, openDeviceStores } from "../../store/browser.ts";
import {
  type BodyOf,
  type EventType,
  freshMemory,
  type Issue,
  parseEvent,
  project,
  type StoredEvent,
  type TrialEvent,
} from "../../trial/index.ts";
import { startAccess } from "./access.ts";
import { startDrafts } from "./drafts.ts";
import { looksFurther } from "./first-look.ts";
import { preferences, startPreferences } from "./preferences.ts";
import { tellWindows } from "./windows.ts";

/** Trials of this device changed: lists look again. */
export const trialsChanged = signal(0);
/** How many entries were kept here, since the page was opened, that a server may not have yet. */
export const kept = signal(0);
/** Another window updated the tables, so this one must be loaded again. */
export const superseded = signal(false);

export const openTrialId = signal<string | undefined>(undefined);
export const events = signal<readonly StoredEvent[]>([]);
/** What long logger files said is read once and kept while the log grows. */
export const memory = freshMemory();
export const view = computed(() =>
  project(events.value, memory, { recordings: looksFurther.value }),
);

/** Up to where the open trial was read from the device's store. */
let cursor = 0;
let stores: DeviceStores | undefined;

/** The log of the workspace that is open, with its drafts. */
export const theStore = (): BrowserStore => theStores().log;

/** What the device itself keeps, in whatever workspace it works. */
export const deviceDrafts = (): BrowserStore["drafts"] => theStores().device.drafts;

export function theStores(): DeviceStores {
  if (!stores) throw new Error("the store is used before it is open");
  return stores;
}

/** Opens the device's store; everything else waits for it. */
export async function startLogKeeper(): Promise<void> {
  const key = "pairing";
  const opened = await openDeviceStores(() => {
    superseded.value = true;
  }, ["preferences", key]);
  stores = opened;
  const drafts = deviceDrafts();
  const [preferred, paired] = opened.recalled;
  startPreferences(preferred, (value) => {
    void drafts.keep("preferences", value);
  });
  startAccess(paired, {
    keep: (value) => (value === undefined ? drafts.forget(key) : drafts.keep(key, value)),
    choose: (workspace, was) => opened.choose(workspace, was),
  });
}

/** Opens a trial for the first screen; a long one goes on while the screen says so. */
export async function openFirst(trial: string): Promise<void> {
  const shortly = new Promise((resolve) => setTimeout(resolve, 150));
  await Promise.race([openTrial(trial).catch(() => undefined), shortly]);
}

/** How often a trial, or the form of a new one, was asked for: only the last one opens. */
let asked = 0;
let opening: { readonly trial: string; readonly done: Promise<void> } | undefined;

/** Once for all that ask while it is read. */
export function openTrial(trial: string): Promise<void> {
  if (opening?.trial === trial) return opening.done;
  const mine = { trial, done: openAs(++asked, trial) };
  opening = mine;
  const over = (): void => {
    if (opening === mine) opening = undefined;
  };
  mine.done.then(over, over);
  return mine.done;
}

async function openAs(mine: number, trial: string): Promise<void> {
  if (openTrialId.value === trial) return;
  const { drafts } = theStore();
  const [draft, log] = await Promise.all([
    drafts.recall(`drafts ${trial}`),
    theStore().read(trial),
  ]);
  if (mine !== asked) return;
  startDrafts(draft, (value) => drafts.keep(`drafts ${trial}`, value));
  cursor = log.cursor;
  events.value = log.events;
  openTrialId.value = trial;
  // What was kept while it was read.
  void readMore();
}

/** Drafts of a trial that does not exist yet. */
export async function openNewTrialDrafts(): Promise<void> {
  const mine = ++asked;
  opening = undefined;
  const { drafts } = theStore();
  openTrialId.value = undefined;
  events.value = [];
  const draft = await drafts.recall("drafts new");
  if (mine === asked) startDrafts(draft, (value) => drafts.keep("drafts new", value));
}

export type Recorded =
  | { readonly kind: "recorded"; readonly id: string }
  | { readonly kind: "invalid"; readonly issues: readonly Issue[] }
  | { readonly kind: "not-kept"; readonly sentence: string };

/** What an event would be; the id is fixed so that a preview and the record can be the same. */
export function makeEvent(trial: string, type: EventType, body: unknown) {
  return {
    id: uuidv7(),
    trial,
    at: new Date().toISOString(),
    device: preferences.value.device,
    type,
    v: 1 as const,
    body,
  };
}

/** Puts one entry into the log: looked at, kept on this device's disk, then sent to the server. */
export async function record<T extends EventType>(
  trial: string,
  type: T,
  body: BodyOf<T> | Readonly<Record<string, unknown>>,
): Promise<Recorded> {
  const parsed = parseEvent(makeEvent(trial, type, body));
  if (parsed.kind === "invalid") return { kind: "invalid", issues: parsed.issues };
  const kept = await keepEvents([parsed.event]);
  return kept === undefined ? { kind: "recorded", id: parsed.event.id } : kept;
}

const notKept: Readonly<Record<string, string>> = {
  "disk-full": "This device has no room left. Free some space, then save again.",
  busy: "The device's store is busy. Save again.",
  "read-only": "The browser does not let this page keep data. Leave private mode, then save again.",
  "disk-error": "The device's disk reported an error. Save again; if it stays, use another device.",
  unreachable: "The app was updated in another window. Load this page again, then save again.",
};

async function keepEvents(fresh: readonly TrialEvent[]) {
  const outcome = await theStore().append(fresh);
  switch (outcome.kind) {
    case "failed":
      return { kind: "not-kept", sentence: notKept[outcome.reason] ?? "Save again." } as const;
    case "refused":
      return {
        kind: "not-kept",
        sentence: "An entry of that number exists already. Save again.",
      } as const;
    case "appended":
      // Told before it is shown: no screen may say "Saved" beside an entry that no server holds.
      kept.value += fresh.length;
      tellWindows();
      await readFurther();
      return undefined;
  }
}

/** Puts a whole log beside the others: an import, or the demonstration. Known entries stay as they are. */
export async function takeIn(log: readonly StoredEvent[]): Promise<string | undefined> {
  const parsed = log.map((event) => parseEvent(event));
  const sound = parsed.flatMap((one) => (one.kind === "event" ? [one.event] : []));
  const outcome = await theStore().append(sound);
  if (outcome.kind === "appended") {
    kept.value += outcome.accepted.length;
    tellWindows();
  }
  await readFurther();
  switch (outcome.kind) {
    case "appended":
      return undefined;
    case "failed":
      return notKept[outcome.reason];
    case "refused":
      return `This device holds ${outcome.conflicts.length} of these entries with other contents. Nothing was taken in.`;
  }
}

/** Awaited when entries were read and before they are shown: how many of them no server holds is told first. */
let beforeShown: () => Promise<void> = () => Promise.resolve();
export const countsBeforeShown = (count: () => Promise<void>): void => {
  beforeShown = count;
};

let reading: Promise<void> = Promise.resolve();

/** Takes up what came into the device's store since the open trial was read: its own entries and others'. */
export function readFurther(): Promise<void> {
  trialsChanged.value += 1;
  return readMore();
}

function readMore(): Promise<void> {
  reading = reading.then(readOn, readOn);
  return reading;
}

async function readOn(): Promise<void> {
  const [trial, from] = [openTrialId.value, cursor];
  if (trial === undefined) return;
  const log = await theStore().read(trial, from);
  if (log.events.length === 0) return;
  await beforeShown();
  // It, or another trial, may have been opened meanwhile, up to another place.
  if (trial !== openTrialId.value || from !== cursor) return;
  cursor = log.cursor;
  events.value = [...events.value, ...log.events];
}
