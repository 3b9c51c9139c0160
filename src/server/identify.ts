import {
  type Device,
  hashOfSecret,
  homeWorkspace,
  type LogStore,
  type Role,
} from "../store/index.ts";
import { refusal } from "./answers.ts";
import type { Peer, Sharing } from "./deps.ts";
import { isOwnName, nameOf } from "./guard.ts";
import { type Rate, rateLimit } from "./rate-limit.ts";

/** Who asks, and what he may do where. */
export interface Asker {
  readonly mode: "alone" | "shared";
  readonly workspace: string;
  readonly role: Role;
  readonly device: { readonly id: string; readonly name: string };
  /** True for a device with a key of its own, which can be revoked. */
  readonly keyed: boolean;
}

export type Identified =
  | { readonly kind: "asker"; readonly asker: Asker }
  | { readonly kind: "refused"; readonly answer: Response };

/** A device at work streams a batch a second and synchronises several trials at once. */
const deviceRate: Rate = { burst: 300, perSecond: 50 };
/** Wrong keys from one address, and tries at pairing codes. */
const strangerRate: Rate = { burst: 20, perSecond: 0.2 };

const local = { id: "local", name: "this computer" };

/**
 * Tells who sent a request. A key goes before the place; without one, only this machine's own user is
 * known, and only where that is the rule.
 */
export function identifier(store: LogStore, sharing: Sharing | undefined, now: () => number) {
  const deviceAllowed = rateLimit(deviceRate, now);
  const strangerAllowed = rateLimit(strangerRate, now);
  const atHome = (mode: Asker["mode"]): Identified => ({
    kind: "asker",
    asker: { mode, workspace: homeWorkspace, role: "owner", device: local, keyed: false },
  });

  const identify = async (request: Request, peer: Peer | undefined): Promise<Identified> => {
    if (sharing === undefined) return atHome("alone");
    const key = bearerOf(request);
    if (key === undefined) {
      return sharing.trustLoopback && isHere(request, peer) ? atHome("shared") : refused(noKey());
    }
    const device = await store.access.deviceOf(hashOfSecret(key));
    if (device === undefined) {
      const slow = !strangerAllowed(placeOf(request, peer, sharing));
      return refused(slow ? tooMany() : noKey());
    }
    if (!deviceAllowed(device.id)) return refused(tooMany());
    store.access.saw(device.id, new Date(now()).toISOString());
    return { kind: "asker", asker: askerOf(device) };
  };
  /** One try of somebody without a key, from an address. */
  const allowStranger = (request: Request, peer: Peer | undefined): boolean =>
    strangerAllowed(placeOf(request, peer, sharing));
  return { identify, allowStranger };
}

function askerOf({ id, name, workspace, role }: Device): Asker {
  return { mode: "shared", workspace, role, device: { id, name }, keyed: true };
}

export function bearerOf(request: Request): string | undefined {
  const header = request.headers.get("authorization") ?? "";
  return /^Bearer ([\w.~+/=-]{1,200})$/i.exec(header)?.[1];
}

/** From this very machine, under its own name, and not passed on by a proxy. */
function isHere(request: Request, peer: Peer | undefined): boolean {
  const { headers } = request;
  const passedOn = ["forwarded", "x-forwarded-for", "x-forwarded-host", "via", "x-real-ip"];
  const name = nameOf(headers.get("host") ?? new URL(request.url).host);
  return (
    peer !== undefined &&
    isLoopback(peer.address) &&
    isOwnName(name) &&
    !passedOn.some((header) => headers.has(header))
  );
}

function isLoopback(address: string): boolean {
  const plain = address.replace(/^::ffff:/i, "");
  return plain === "::1" || /^127(\.\d{1,3}){3}$/.test(plain);
}

/** What a stranger is counted by: the address, of IPv6 the network that one customer gets. */
function placeOf(request: Request, peer: Peer | undefined, sharing: Sharing | undefined): string {
  const forwarded = request.headers.get("x-forwarded-for")?.split(",").at(-1)?.trim();
  const address = (sharing?.behindProxy === true ? forwarded : undefined) ?? peer?.address ?? "";
  const plain = address.replace(/^::ffff:/i, "").slice(0, 45);
  return plain.includes(":") ? plain.split(":").slice(0, 4).join(":") : plain;
}

const refused = (answer: Response): Identified => ({ kind: "refused", answer });
const noKey = () =>
  refusal(401, "no-key", "this device is not paired; ask an owner for a pairing code");
export const tooMany = () =>
  refusal(429, "too-many", "too many requests; wait a little and try again");
