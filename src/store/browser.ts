/**
 * The store's door for a browser: the same port in IndexedDB, with what a device needs that is often
 * alone: an outbox, half-typed drafts, and a merge with a server. Must never load SQLite.
 */
export type { AppendOutcome, EventStore, StoredLog, StoredTrial, WriteFailure } from "./port.ts";
export { openBrowserStore } from "./browser-store.ts";
export type { BrowserStore, Outbox } from "./browser-store.ts";
export { openDeviceStores } from "./device-stores.ts";
export type { DeviceStores, WorkspaceName } from "./device-stores.ts";
export { synchronise } from "./synchronise.ts";
export type { Remote, RemoteFailure, SynchroniseOutcome } from "./synchronise.ts";
export { remoteOver } from "./remote.ts";
