import { signal } from "@preact/signals";
import type { DeviceStores } from "../../store/browser.ts";

export type Role = "owner" | "tester" | "viewer";

/** The key that a server gave this device, and what it opens there. */
export interface Pairing {
  readonly key: string;
  readonly workspace: string;
  readonly role: Role;
  readonly device: { readonly id: string; readonly name: string };
}

/**
 * - `unknown`: not asked yet, or the server is away.
 * - `alone`: a server on this very machine, which asks for no key.
 * - `paired`: it knows this device's key.
 * - `no-key`: it asks for a key, and this device has none that it knows.
 */
export interface Access {
  readonly kind: "unknown" | "alone" | "paired" | "no-key";
  readonly role?: Role;
  readonly workspace?: string;
  readonly device?: Pairing["device"];
}

export const access = signal<Access>({ kind: "unknown" });
export const pairing = signal<Pairing | undefined>(undefined);

interface Keeper {
  /** Keeps the key on this device's disk; undefined forgets it. */
  readonly keep: (value: Pairing | undefined) => Promise<void>;
  /** Chooses the log of a workspace for the next start; true when it is another than is open. */
  readonly choose: DeviceStores["choose"];
}
let keeper: Keeper = { keep: () => Promise.resolve(), choose: () => Promise.resolve(false) };

export function startAccess(stored: unknown, given: Keeper): void {
  keeper = given;
  if (isPairing(stored)) pairing.value = stored;
}

function isPairing(value: unknown): value is Pairing {
  return (
    typeof value === "object" && value !== null && "key" in value && typeof value.key === "string"
  );
}

/** A request to the server under this device's key, when it has one. */
export function ask(request: Request): Promise<Response> {
  return askUnder(pairing.value?.key, request);
}

export function askUnder(key: string | undefined, request: Request): Promise<Response> {
  if (key !== undefined) request.headers.set("authorization", `Bearer ${key}`);
  return fetch(request);
}

const roles: readonly unknown[] = ["owner", "tester", "viewer"];
const isRole = (value: unknown): value is Role => roles.includes(value);
const isDevice = (value: unknown): value is Pairing["device"] =>
  typeof value === "object" && value !== null && "id" in value && "name" in value;

/** Asks the server what this device may do there. A server that knows no such question asks for no key. */
export async function askAccess(): Promise<void> {
  const answer = await ask(new Request("/api/access")).catch(() => undefined);
  if (!answer) return;
  if (answer.status === 401) access.value = { kind: "no-key" };
  if (answer.status === 404) access.value = { kind: "alone" };
  if (!answer.ok) return;
  const body = (await answer.json().catch(() => ({}))) as Record<string, unknown>;
  access.value = {
    kind: body["mode"] === "alone" && !pairing.value ? "alone" : "paired",
    ...(isRole(body["role"]) && { role: body["role"] }),
    ...workspaceIn(body),
    ...(isDevice(body["device"]) && { device: body["device"] }),
  };
}

/** By its name where the server tells it, else by its id. */
function workspaceIn(body: Record<string, unknown>): { workspace?: string } {
  const name = body["workspaceName"] ?? body["workspace"];
  return typeof name === "string" ? { workspace: name } : {};
}

export type Redeemed =
  /** `moved`: its log is another than the one that is open; load the page again. */
  | { readonly kind: "paired"; readonly moved: boolean }
  | { readonly kind: "refused" | "away" | "not-understood" };

/** Gives a code for a key and keeps the key. A code opens once. */
export async function redeem(code: string, device: string): Promise<Redeemed> {
  const answer = await fetch("/api/pairings/redeem", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ code: code.trim(), device }),
  }).catch(() => undefined);
  if (!answer || answer.status >= 500) return { kind: "away" };
  if (!answer.ok) return { kind: "refused" };
  const body = (await answer.json().catch(() => ({}))) as Record<string, unknown>;
  const { key, role, device: known } = body;
  if (typeof key !== "string" || !isRole(role) || !isDevice(known))
    return { kind: "not-understood" };
  const workspace = workspaceIn(body).workspace ?? "";
  const value = { key, workspace, role, device: known };
  const id = typeof body["workspace"] === "string" ? body["workspace"] : workspace;
  const moved = await keeper.choose({ id, name: workspace }, pairing.value?.workspace);
  await keeper.keep(value);
  // Until the page is loaded again, the log of the workspace before is open: nothing of it may go there.
  if (moved) return { kind: "paired", moved };
  pairing.value = value;
  access.value = { kind: "paired", role, workspace, device: known };
  return { kind: "paired", moved };
}

/** Forgets the key on this device; what is in the log here stays. */
export async function forgetKey(): Promise<void> {
  await keeper.keep(undefined);
  pairing.value = undefined;
  access.value = { kind: "unknown" };
  await askAccess();
}
