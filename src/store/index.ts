/**
 * Knows where the log lives, that an acknowledged event stays there, and who may open it: the port, and
 * SQLite and PostgreSQL behind it.
 * The browser's store has a door of its own (`browser.ts`), because it must not load SQLite.
 * Must never know what an event means, nor change one. Has no basis: it stores what the log says.
 */
export type {
  AppendOutcome,
  EventStore,
  StoredLog,
  StoredTrial,
  WorkspaceLog,
  WriteFailure,
} from "./port.ts";
export { homeWorkspace, StoreUnavailable } from "./log-store.ts";
export type { LogStore, News, TrialVerdict } from "./log-store.ts";
export { openSqliteStore } from "./sqlite.ts";
export { isPostgres, openStore } from "./open.ts";
export type { OpenOutcome } from "./open-outcome.ts";
export {
  codeFrom,
  hashOfSecret,
  newDeviceKey,
  newId,
  offerPairing,
  openWorkspace,
  roles,
} from "./access.ts";
export type { AccessRecords, Device, Role, Workspace } from "./access.ts";
export { backupTo, contentsOf, restoreFrom } from "./backup.ts";
export { FaultyBackup } from "./backup-format.ts";
export type { Contents } from "./backup-format.ts";
export { inTurns, turn } from "./turns.ts";
