import { getPublicKey, hashes, sign, utils, verify } from "@noble/ed25519";
import { sha512 } from "@noble/hashes/sha2.js";
import { bytesToHex, hexToBytes, utf8ToBytes } from "@noble/hashes/utils.js";

/*
 * Signatures are made without the browser's own cryptography, which is absent on plain http in a shop's
 * network. Source: RFC 8032 (Ed25519).
 */
hashes.sha512 = sha512;

/** Keeps these signatures apart from every other use of the same key. */
const domain = "coldproof-report-1";

/** A key of this device: 32 secret bytes as hexadecimal digits. It never leaves the device. */
export type SigningKey = string;

export interface Signature {
  /** Hexadecimal digits of the public key, 32 bytes, and of the signature, 64 bytes. */
  readonly publicKey: string;
  readonly signature: string;
}

/** A new key from the device's own randomness. */
export const newSigningKey = (): SigningKey => bytesToHex(utils.randomSecretKey());

/** Is this text a key? */
export const isSigningKey = (text: string): boolean => /^[0-9a-f]{64}$/.test(text);

/** What others are told, so that they know the next report by it. */
export const publicKeyOf = (key: SigningKey): string => bytesToHex(getPublicKey(hexToBytes(key)));

/** @param digest  SHA-256 in hexadecimal digits. */
export function signDigest(digest: string, key: SigningKey): Signature {
  const secret = hexToBytes(key);
  return {
    publicKey: bytesToHex(getPublicKey(secret)),
    signature: bytesToHex(sign(message(digest), secret)),
  };
}

/** Whether the holder of the public key signed this digest; false for anything that is no signature. */
export function isSigned(digest: string, { publicKey, signature }: Signature): boolean {
  if (!/^[0-9a-f]{64}$/.test(publicKey) || !/^[0-9a-f]{128}$/.test(signature)) return false;
  try {
    return verify(hexToBytes(signature), message(digest), hexToBytes(publicKey));
  } catch {
    // The library throws for a key that is no point of the curve: nobody can have signed with it.
    return false;
  }
}

const message = (digest: string): Uint8Array => utf8ToBytes(`${domain}\n${digest}`);
