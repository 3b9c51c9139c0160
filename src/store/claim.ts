import type { BrowserStore } from "./browser-store.ts";

/** Whose log a store holds; without an id, only a name was ever told. */
export interface Claim {
  readonly id?: string;
  readonly name?: string;
}

const key = "workspace of this log";

/** Undefined for a store that never met a server. */
export async function claimOf({ drafts }: BrowserStore): Promise<Claim | undefined> {
  const kept = await drafts.recall(key);
  return typeof kept === "object" && kept !== null ? kept : undefined;
}

export const keepClaim = ({ drafts }: BrowserStore, claim: Claim): Promise<void> =>
  drafts.keep(key, claim);

/**
 * May this log be exchanged with a server that serves this workspace? A log that never met one is
 * that workspace's from now on.
 */
export async function belongsTo(store: BrowserStore, workspace: string): Promise<boolean> {
  const claim = await claimOf(store);
  if (claim?.id !== undefined) return claim.id === workspace;
  if (claim?.name !== undefined) return false;
  await keepClaim(store, { id: workspace });
  return true;
}
