import { signal } from "@preact/signals";
import { isSigningKey, newSigningKey, type SigningKey } from "../../report/index.ts";
import { deviceDrafts } from "../shell/log-keeper.ts";

/** The key that signs reports of this device, once its user made one. It never leaves the device. */
export const deviceKey = signal<SigningKey | undefined>(undefined);

const place = "signing key";

export async function recallKey(): Promise<void> {
  const kept = await deviceDrafts().recall(place);
  deviceKey.value = typeof kept === "string" && isSigningKey(kept) ? kept : undefined;
}

export async function makeKey(): Promise<void> {
  if (deviceKey.value !== undefined) return;
  const key = newSigningKey();
  await deviceDrafts().keep(place, key);
  deviceKey.value = key;
}
