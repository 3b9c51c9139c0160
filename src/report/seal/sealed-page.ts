import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import { deflateSync, inflateSync, strFromU8, strToU8 } from "fflate";
import { z } from "zod";
import { type Signature, signDigest, type SigningKey } from "./signature.ts";

/**
 * A page that carries what it was made from. Two data blocks stand at its end: the log with the figures
 * that were drawn from it, and a digest of every byte of the page but the digest's own block.
 *
 * See docs/models/integrity.md.
 */
export interface CarriedData {
  readonly format: "coldproof-report";
  readonly version: 1;
  /** Version of the program that wrote it: the same one must give the same bytes again. */
  readonly program: string;
  readonly generatedAt: string;
  readonly units: string;
  /** An exported trial. */
  readonly log: unknown;
  /** Seal of that log, see `logSeal`. */
  readonly seal: string;
  /** Everything that was concluded, as numbers and words. */
  readonly figures: unknown;
}

const dataId = "report-data";
const digestId = "report-digest";
/** No browser runs a script of these types. */
const types = { [dataId]: "text/plain", [digestId]: "application/json" } as const;
const opening = (id: keyof typeof types): string => `<script type="${types[id]}" id="${id}">`;
const closing = "</script>";

/**
 * The data as text: JSON, deflated (RFC 1951), in base64. A log repeats itself, so it becomes a quarter of its
 * size, and no character of a trial can end the block.
 */
function dataText(data: CarriedData): string {
  const bytes = deflateSync(strToU8(JSON.stringify(data)), { level: 9 });
  let binary = "";
  for (let i = 0; i < bytes.length; i += CHUNK) {
    binary += String.fromCharCode(...bytes.subarray(i, i + CHUNK));
  }
  return btoa(binary);
}
/** Arguments of one call; engines take some ten thousands. */
const CHUNK = 8192;

/** The data again; undefined for a text that is none. */
function dataOf(text: string): unknown {
  try {
    const bytes = Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
    return JSON.parse(strFromU8(inflateSync(bytes))) as unknown;
  } catch {
    return undefined;
  }
}

/**
 * Puts both blocks at the end of a page.
 *
 * @param page  Ends in `</body></html>` and perhaps white space.
 * @param key   Signs the digest, when there is one.
 */
export function sealPage(page: string, data: CarriedData, key?: SigningKey): string {
  const end = page.lastIndexOf("</body>");
  if (end < 0) throw new RangeError("a page to seal has a body");
  const block = `${opening(dataId)}${dataText(data)}${closing}`;
  const head = `${page.slice(0, end)}${block}${opening(digestId)}`;
  const tail = `${closing}${page.slice(end)}`;
  const digest = digestOf(head, tail);
  const words = { sha256: digest, ...(key !== undefined && signDigest(digest, key)) };
  return `${head}${JSON.stringify(words)}${tail}`;
}

const digestOf = (head: string, tail: string): string =>
  bytesToHex(sha256(utf8ToBytes(`${head}\n${tail}`)));

const dataSchema = z.strictObject({
  format: z.literal("coldproof-report"),
  version: z.literal(1),
  program: z.string(),
  generatedAt: z.string(),
  units: z.string(),
  log: z.unknown(),
  seal: z.string(),
  figures: z.unknown(),
});
const digestSchema = z.union([
  z.strictObject({ sha256: z.string() }),
  z.strictObject({ sha256: z.string(), publicKey: z.string(), signature: z.string() }),
]);

export type OpenedPage =
  | { readonly kind: "not-sealed"; readonly why: string }
  | {
      readonly kind: "sealed";
      readonly data: CarriedData;
      /** The page without its blocks, as it was before it was sealed. */
      readonly page: string;
      /** Digest that is written in the page, and the one that its bytes have. */
      readonly written: string;
      readonly digest: string;
      readonly signature: Signature | undefined;
    };

const noSeal = (why: string): OpenedPage => ({ kind: "not-sealed", why });

/** Takes a page apart again. Never throws, whatever the text is. */
export function openPage(html: string): OpenedPage {
  const dataFrom = html.lastIndexOf(opening(dataId));
  const digestFrom = html.lastIndexOf(opening(digestId));
  if (dataFrom < 0 || digestFrom < dataFrom) {
    return noSeal("it carries no log: it is no report of this program, or its end is missing");
  }
  const textFrom = dataFrom + opening(dataId).length;
  const wordsFrom = digestFrom + opening(digestId).length;
  const wordsTo = html.indexOf(closing, wordsFrom);
  const text = html.slice(textFrom, digestFrom - closing.length);
  if (wordsTo < 0 || html.slice(digestFrom - closing.length, digestFrom) !== closing) {
    return noSeal("its data blocks are cut");
  }
  const data = dataSchema.safeParse(dataOf(text));
  const words = digestSchema.safeParse(parsed(html.slice(wordsFrom, wordsTo)));
  if (!data.success) return noSeal("the log that it carries cannot be read");
  if (!words.success) return noSeal("the digest that it carries cannot be read");
  return {
    kind: "sealed",
    data: data.data,
    page: html.slice(0, dataFrom) + html.slice(wordsTo + closing.length),
    written: words.data.sha256,
    digest: digestOf(html.slice(0, wordsFrom), html.slice(wordsTo)),
    signature: "publicKey" in words.data ? words.data : undefined,
  };
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
