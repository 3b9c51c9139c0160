import { ask, type Role } from "../shell/access.ts";

/** A device that the server knows. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** ISO instants. */
  readonly created?: string;
  readonly revoked?: string;
}

export interface Offer {
  readonly code: string;
  /** ISO instant. */
  readonly expires: string;
  /** Opens the app on the other device with the code in it. */
  readonly url: string;
}

/** What a server's refusal means for the person at the screen. */
export type Refusal = "away" | "not-allowed" | "not-offered" | "last-owner";

export type Told<T> =
  | { readonly kind: "told"; readonly value: T }
  | { readonly kind: "refused"; readonly why: Refusal };

const refused = (why: Refusal) => ({ kind: "refused", why }) as const;

async function told<T>(request: Request, read: (body: unknown) => T | undefined): Promise<Told<T>> {
  const answer = await ask(request).catch(() => undefined);
  if (!answer || answer.status >= 500) return refused("away");
  if (answer.status === 401 || answer.status === 403) return refused("not-allowed");
  if (answer.status === 409) return refused("last-owner");
  const value = answer.ok ? read(await answer.json().catch(() => undefined)) : undefined;
  return value === undefined ? refused("not-offered") : { kind: "told", value };
}

type Json = Readonly<Record<string, unknown>>;
const isJson = (value: unknown): value is Json => typeof value === "object" && value !== null;

function deviceOf(value: unknown): Device[] {
  if (!isJson(value) || typeof value["id"] !== "string") return [];
  const text = (name: string) => (typeof value[name] === "string" ? { [name]: value[name] } : {});
  const role = (["owner", "tester", "viewer"] as const).find((one) => one === value["role"]);
  return [
    {
      id: value["id"],
      name: typeof value["name"] === "string" ? value["name"] : "unnamed",
      role: role ?? "viewer",
      ...text("created"),
      ...text("revoked"),
    },
  ];
}

export const readDevices = (): Promise<Told<readonly Device[]>> =>
  told(new Request("/api/devices"), (body) => {
    const list = isJson(body) ? body["devices"] : body;
    return Array.isArray(list) ? list.flatMap(deviceOf) : undefined;
  });

/** Makes a code that pairs one device, once. */
export const offerPairing = (role: Role, name: string): Promise<Told<Offer>> =>
  told(
    new Request("/api/pairings", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ role, ...(name !== "" && { name }) }),
    }),
    (body) => {
      if (!isJson(body)) return undefined;
      const { code, expires, url } = body;
      const isOffer =
        typeof code === "string" && typeof expires === "string" && typeof url === "string";
      return isOffer ? { code, expires, url } : undefined;
    },
  );

/** Takes a device's key back. */
export const revoke = (id: string): Promise<Told<true>> =>
  told(
    new Request(`/api/devices/${encodeURIComponent(id)}`, {
      method: "DELETE",
      headers: { "content-type": "application/json" },
    }),
    () => true as const,
  );
