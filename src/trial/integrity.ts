import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { inWrittenOrder } from "./export.ts";
import type { StoredEvent } from "./view.ts";

/**
 * Hash chains over a log: each entry's hash covers its own text and the hash before it, so that one hash
 * stands for the whole log up to there. See docs/models/integrity.md.
 */

/** What stands before the first entry of every chain. */
export const chainStart = "0".repeat(64);

/** Keeps these hashes apart from every other use of SHA-256 on the same texts. */
const domain = "coldproof-chain-1";

/**
 * The hash of a chain that grows by one entry.
 *
 * @param previous      hash of the chain so far, 64 hexadecimal digits; `chainStart` for the first entry.
 * @param canonicalText the entry's text as `canonicalText` gives it; no lone surrogates, which it escapes.
 * @param digest        SHA-256 of a text, where the caller has a quicker one.
 * @returns 64 hexadecimal digits in lower case.
 *
 * Source: nist2015 (FIPS 180-4, SHA-256).
 */
export function chainHash(
  previous: string,
  canonicalText: string,
  digest: Digest = plainDigest,
): string {
  return digest(`${domain}\n${previous}\n${canonicalText}`);
}

/** 64 hexadecimal digits of a text. */
export type Digest = (text: string) => string;
const plainDigest: Digest = (text) => bytesToHex(sha256(utf8ToBytes(text)));

/**
 * The seal of a log: the chain over its distinct events in the export's written order. The same set of
 * events has the same seal, whatever order or number of times they came in; another set has another.
 *
 * @returns 64 hexadecimal digits; `chainStart` for no events.
 */
export function logSeal(events: readonly StoredEvent[]): string {
  return inWrittenOrder(events).reduce((hash, { text }) => chainHash(hash, text), chainStart);
}

/** One entry of a stored chain. */
export interface ChainRow {
  /** 1, 2, 3 … */
  readonly seq: number;
  /** The entry's canonical text. */
  readonly content: string;
  /** What the store wrote down as the chain's hash up to this entry. */
  readonly hash: string;
}

/**
 * - `sound`: every number and hash follows from the one before; `head` stands for all of it.
 * - `broken`: at `seq` a number is missing or comes twice (`gap`), or text and hash do not belong together
 *   (`hash`). Everything before `seq` is sound.
 */
export type ChainVerdict =
  | { readonly kind: "sound"; readonly count: number; readonly head: string }
  | { readonly kind: "broken"; readonly seq: number; readonly reason: "gap" | "hash" };

/** Where a chain goes on: after `count` entries, with the hash `head`. */
export interface ChainEnd {
  readonly count: number;
  readonly head: string;
}

/**
 * Recomputes a chain.
 *
 * @param rows in order of their numbers; may be read piece by piece.
 * @param from where an earlier piece ended; the beginning without it.
 * @param digest SHA-256 of a text, where the caller has a quicker one.
 */
export function verifyChain(
  rows: Iterable<ChainRow>,
  from: ChainEnd = { count: 0, head: chainStart },
  digest: Digest = plainDigest,
): ChainVerdict {
  let { count, head } = from;
  for (const { seq, content, hash } of rows) {
    if (seq !== count + 1) return { kind: "broken", seq: count + 1, reason: "gap" };
    head = chainHash(head, content, digest);
    if (hash !== head) return { kind: "broken", seq, reason: "hash" };
    count = seq;
  }
  return { kind: "sound", count, head };
}
