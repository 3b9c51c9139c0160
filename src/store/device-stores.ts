import { type BrowserStore, openBrowserStore } from "./browser-store.ts";
import { claimOf, keepClaim } from "./claim.ts";

/** A workspace of a server. */
export interface WorkspaceName {
  readonly id: string;
  readonly name: string;
}

/**
 * The stores of one device: a store for each workspace that it ever worked in, so that nothing of one is
 * seen in another or sent to it. The first store is the first workspace's, and that of a device alone; it
 * also keeps what belongs to the device itself.
 */
export interface DeviceStores {
  /** Where drafts of the device itself are: its key, its user's preferences. */
  readonly device: BrowserStore;
  /** The log that is open. */
  readonly log: BrowserStore;
  /**
   * Chooses the log that the next start opens.
   *
   * @param was name of the workspace that the device was paired with before; undefined when with none.
   * @returns true when it is another one than is open now.
   */
  choose(workspace: WorkspaceName, was?: string): Promise<boolean>;
}

const first = "coldproof";
/** Where the device keeps the name of the store that is open. */
const chosenKey = "open log";

/**
 * @param onSuperseded called after a store closed itself, because another tab needs newer tables: reload.
 * @param keys drafts of the device that are needed at once: asked for together with the rest, each way to the disk is felt on a phone.
 */
export async function openDeviceStores(
  onSuperseded: () => void,
  keys: readonly string[],
): Promise<DeviceStores & { readonly recalled: readonly unknown[] }> {
  const device = await openBrowserStore(first, onSuperseded);
  const [chosen, ...recalled] = await Promise.all(
    [chosenKey, ...keys].map((key) => device.drafts.recall(key)),
  );
  const open = typeof chosen === "string" ? chosen : first;
  const log = open === first ? device : await openBrowserStore(open, onSuperseded);
  return {
    device,
    log,
    recalled,
    choose: async (workspace, was) => {
      const name = (await isFirst(device, workspace, was)) ? first : `${first} ${workspace.id}`;
      if (name === open) return false;
      // Said before it is opened, so that a round of the new store can only meet its own server.
      if (name !== first) await claimed(name, workspace);
      await device.drafts.keep(chosenKey, name);
      return true;
    },
  };
}

/** Does the first store belong to this workspace? When nothing is known of it yet, it does from now on. */
async function isFirst(device: BrowserStore, workspace: WorkspaceName, was?: string) {
  const claim = (await claimOf(device)) ?? (was === undefined ? undefined : { name: was });
  const isOurs =
    claim === undefined ||
    (claim.id === undefined ? claim.name === workspace.name : claim.id === workspace.id);
  await keepClaim(device, isOurs ? { ...claim, ...workspace } : claim);
  return isOurs;
}

async function claimed(name: string, workspace: WorkspaceName): Promise<void> {
  const store = await openBrowserStore(name);
  await keepClaim(store, workspace);
  await store.close();
}
