import { createHash, randomBytes, randomInt, randomUUID } from "node:crypto";

/**
 * - `owner`: everything, also pairing and revoking devices.
 * - `tester`: reads and appends.
 * - `viewer`: reads.
 */
export const roles = ["owner", "tester", "viewer"] as const;
export type Role = (typeof roles)[number];

export interface Workspace {
  readonly id: string;
  readonly name: string;
  /** Changes when the log was set back to a copy: devices then offer everything again. */
  readonly epoch: string;
  readonly created: string;
}

export interface Device {
  readonly id: string;
  readonly workspace: string;
  readonly name: string;
  readonly role: Role;
  readonly created: string;
  /** When its key stopped opening anything; null while it does. */
  readonly revoked: string | null;
  /** When it last asked for something, to the minute; null before it did. */
  readonly lastSeen: string | null;
}

/** A device with the SHA-256 of its key, for copies. */
export interface DeviceRecord extends Device {
  readonly keyHash: string;
}

export interface PairingRecord {
  readonly codeHash: string;
  readonly workspace: string;
  readonly role: Role;
  readonly name: string;
  /** ISO instant. */
  readonly expires: string;
}

/** Who may open what. Keys and codes are never kept, only their SHA-256. */
export interface AccessRecords {
  workspaces(): Promise<readonly Workspace[]>;
  workspace(id: string): Promise<Workspace | undefined>;
  /** Adds a workspace, or changes name and epoch of the one that has this id. */
  keepWorkspace(workspace: Workspace): Promise<void>;
  /** Keeps an offer; drops those that expired by `now`. */
  offer(pairing: PairingRecord, now: string): Promise<void>;
  /** Takes an offer back for ever and makes the device of it; undefined when there is no such offer now. */
  redeem(
    codeHash: string,
    now: string,
    device: { readonly id: string; readonly name: string; readonly keyHash: string },
  ): Promise<Device | undefined>;
  /** The device whose key it is; undefined for no device and for a revoked one. */
  deviceOf(keyHash: string): Promise<Device | undefined>;
  devices(workspace: string): Promise<readonly DeviceRecord[]>;
  /** For restoring a copy: a device that is there stays as it is. */
  keepDevice(device: DeviceRecord): Promise<void>;
  /** Notes that a device asked for something; costs nothing now, and is written within a minute. */
  saw(device: string, at: string): void;
  /** False when the workspace has no such device. Tells the news. */
  revoke(workspace: string, device: string, now: string): Promise<boolean>;
}

/** 32 signs without I, L, O and U: read aloud and typed without mistakes. */
const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const codeLength = 12;
/** How long a pairing code opens a workspace, ms. */
const codeLife = 10 * 60_000;

/** What is kept of a key or a code. Both are random and long, so that no salt or slow hash is needed. */
export function hashOfSecret(secret: string): string {
  return createHash("sha256").update(secret, "utf8").digest("hex");
}

/** A device's key: 256 random bits. */
export function newDeviceKey(): string {
  return randomBytes(32).toString("base64url");
}

export function newId(): string {
  return randomUUID();
}

/** Capital letters and digits as codes have them; signs that look alike are taken for the right one. */
export function codeFrom(typed: string): string {
  return typed.toUpperCase().replace(/[\s-]/g, "").replace(/[IL]/g, "1").replace(/O/g, "0");
}

/** Makes a one-time code of 60 random bits that pairs one device. */
export async function offerPairing(
  access: AccessRecords,
  offer: { readonly workspace: string; readonly role: Role; readonly name: string },
  now: Date,
): Promise<{ readonly code: string; readonly expires: string }> {
  const plain = Array.from({ length: codeLength }, () => signs[randomInt(signs.length)]).join("");
  const expires = new Date(now.getTime() + codeLife).toISOString();
  await access.offer({ ...offer, codeHash: hashOfSecret(plain), expires }, now.toISOString());
  return { code: plain.replace(/(.{4})(?=.)/g, "$1-"), expires };
}

/** Makes a workspace and the code that pairs its first owner. */
export async function openWorkspace(access: AccessRecords, name: string, now: Date) {
  const workspace = { id: newId(), name, epoch: newId(), created: now.toISOString() };
  await access.keepWorkspace(workspace);
  const offer = { workspace: workspace.id, role: "owner", name: "owner" } as const;
  return { workspace, ...(await offerPairing(access, offer, now)) };
}
