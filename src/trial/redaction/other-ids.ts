import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { StoredEvent } from "../view.ts";

const hashOf = (salt: string, text: string): string =>
  bytesToHex(sha256(utf8ToBytes(`coldproof-redaction-1\n${salt}\n${text}`)));

/** Cuts 32 hexadecimal digits into the written form of a UUID. */
const dashed = (hex: string): string =>
  [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join(
    "-",
  );

/** UUID of version 4 from a hash: a trial's id. Source of the form: RFC 9562, 5.4. */
function trialId(salt: string, id: string): string {
  const hex = hashOf(salt, id);
  return dashed(`${hex.slice(0, 12)}4${hex.slice(12, 15)}8${hex.slice(15, 30)}`);
}

/**
 * Ids of a redacted log by those of its original: an entry with other words is another entry. The moment inside
 * an id and the order of ids stay, since the order of a log hangs on them; the rest follows from the original's
 * seal and from what was hidden, so that only a holder of the original can tell which is which, and two
 * redactions of one log are two logs.
 *
 * Source of the form: RFC 9562, 5.7 (version 7, a counter after the moment).
 */
export function otherIds(
  events: readonly StoredEvent[],
  salt: string,
): ReadonlyMap<string, string> {
  const ids = [...new Set(events.map(({ id }) => id))].sort();
  const trials = new Set(events.map(({ trial }) => trial));
  return new Map([
    ...Array.from(trials, (trial) => [trial, trialId(salt, trial)] as const),
    ...ids.map((id, i) => [id, entryId(id, i, hashOf(salt, id))] as const),
  ]);
}

/** @param place  In the order of all ids: 32 bits. */
export function entryId(id: string, place: number, hash: string): string {
  const moment = id.replaceAll("-", "").slice(0, 12);
  const count = place.toString(16).padStart(8, "0");
  return dashed(`${moment}7${count.slice(0, 3)}8${count.slice(3)}${hash.slice(0, 10)}`);
}

/** The same value with every text that is an id replaced by its other. */
export function withIds(value: unknown, ids: ReadonlyMap<string, string>): unknown {
  if (typeof value === "string") return ids.get(value) ?? value;
  if (Array.isArray(value)) return value.map((one) => withIds(one, ids));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, withIds(one, ids)]));
}
