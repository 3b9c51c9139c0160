import { z } from "zod";
import {
  codeFrom,
  hashOfSecret,
  type LogStore,
  newDeviceKey,
  newId,
  offerPairing,
  openWorkspace,
  roles,
} from "../store/index.ts";
import { parseJson, type WireIssue } from "../wire/index.ts";
import { invalid, refusal } from "./answers.ts";
import type { Asker } from "./identify.ts";

const name = z.string().trim().min(1).max(80);
const pairingSchema = z.strictObject({ role: z.enum(roles), name: name.optional() });
const redeemSchema = z.strictObject({
  code: z.string().min(1).max(40),
  device: z.union([name, z.object({ name })]).optional(),
});
const workspaceSchema = z.strictObject({ name });

/** What the access handlers need beside the request. */
export interface AccessDeps {
  readonly store: LogStore;
  readonly now: () => number;
  /** Beginning of the links that pair a device. */
  readonly address: () => string;
}

/** `GET /api/access` */
export async function accessAnswer({ store }: AccessDeps, asker: Asker): Promise<Response> {
  const { mode, workspace, role, device } = asker;
  const known = await store.access.workspace(workspace);
  const workspaceName = known?.name ?? workspace;
  return Response.json({ mode, workspace, workspaceName, role, device });
}

/** `POST /api/pairings` */
export async function makePairing(deps: AccessDeps, asker: Asker, body: string) {
  const parsed = read(pairingSchema, body, `{"role": ${roles.join(" | ")}, "name": text}`);
  if (parsed.kind === "invalid") return invalid(parsed.issues);
  const { role, name: suggested = "" } = parsed.value;
  const offer = { workspace: asker.workspace, role, name: suggested };
  const made = await offerPairing(deps.store.access, offer, new Date(deps.now()));
  return Response.json({ ...made, url: pairingUrl(deps.address(), made.code) }, { status: 201 });
}

/** Where a phone goes that reads the code as a picture. */
export function pairingUrl(address: string, code: string): string {
  return `${address}/#/pair/${code}`;
}

/** `POST /api/pairings/redeem`: the only way in for somebody without a key. */
export async function redeemPairing({ store, now }: AccessDeps, body: string) {
  const parsed = read(redeemSchema, body, '{"code": text, "device": the device\'s name}');
  if (parsed.kind === "invalid") return invalid(parsed.issues);
  const { code, device: named } = parsed.value;
  const key = newDeviceKey();
  const device = {
    id: newId(),
    name: typeof named === "object" ? named.name : (named ?? ""),
    keyHash: hashOfSecret(key),
  };
  const at = new Date(now()).toISOString();
  const made = await store.access.redeem(hashOfSecret(codeFrom(code)), at, device);
  if (made === undefined) {
    return refusal(
      404,
      "unknown-code",
      "this code is wrong, was used, or is older than 10 minutes",
    );
  }
  const workspace = await store.access.workspace(made.workspace);
  return Response.json({
    key,
    workspace: made.workspace,
    workspaceName: workspace?.name ?? made.workspace,
    role: made.role,
    device: { id: made.id, name: made.name },
  });
}

/** `GET /api/devices` */
export async function listDevices({ store }: AccessDeps, asker: Asker): Promise<Response> {
  const devices = await store.access.devices(asker.workspace);
  return Response.json({
    devices: devices.map(({ id, name, role, created, revoked, lastSeen }) => {
      return { id, name, role, created, revoked, lastSeen };
    }),
  });
}

/** `DELETE /api/devices/:id` */
export async function revokeDevice({ store, now }: AccessDeps, asker: Asker, id: string) {
  const working = (await store.access.devices(asker.workspace)).filter((one) => !one.revoked);
  const owners = working.filter(({ role }) => role === "owner");
  if (asker.keyed && owners.length === 1 && owners[0]?.id === id) {
    return refusal(409, "last-owner", "the last owner stays; pair another owner first");
  }
  const at = new Date(now()).toISOString();
  const found = await store.access.revoke(asker.workspace, id, at);
  if (!found) return refusal(404, "unknown-device", "there is no such device");
  return Response.json({ revoked: id });
}

/** `POST /api/workspaces`, for the operator of a shared server. */
export async function makeWorkspace({ store, now, address }: AccessDeps, body: string) {
  const parsed = read(workspaceSchema, body, '{"name": text}');
  if (parsed.kind === "invalid") return invalid(parsed.issues);
  const made = await openWorkspace(store.access, parsed.value.name, new Date(now()));
  const { id, name: called } = made.workspace;
  const { code, expires } = made;
  return Response.json(
    { workspace: id, workspaceName: called, code, expires, url: pairingUrl(address(), code) },
    { status: 201 },
  );
}

type Read<T> =
  | { readonly kind: "valid"; readonly value: T }
  | { readonly kind: "invalid"; readonly issues: readonly WireIssue[] };

function read<T>(schema: z.ZodType<T>, body: string, accepted: string): Read<T> {
  const json = parseJson(body, "body");
  if (json.kind === "invalid") return json;
  const parsed = schema.safeParse(json.value);
  if (parsed.success) return { kind: "valid", value: parsed.data };
  const issues = parsed.error.issues.map(({ path, message }) => {
    const field = path.map(String).join(".") || "body";
    return { field, value: typeof json.value, accepted: `${accepted} (${message})` };
  });
  return { kind: "invalid", issues };
}
