import { createHash } from "node:crypto";

/** SHA-256 of a text in UTF-8, 64 hexadecimal digits: Node's own takes a third of the time of the one that browsers share. */
export function digest(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}
