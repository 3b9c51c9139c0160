// Places inside the checkout and the machine's cache folder, and the stamps that say what was done already.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, renameSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../../", import.meta.url));
export const stamps = join(root, ".stamps");

/** Files shared by all checkouts of one user: compiled binaries, which take a minute to make. */
export const cacheFolder = join(
  process.env.XDG_CACHE_HOME || join(homedir(), ".cache"),
  "coldproof",
);

/** Whole content of a stamp, or undefined when that step was never finished. */
export function stamp(name) {
  try {
    return readFileSync(join(stamps, name), "utf8");
  } catch {
    return undefined;
  }
}

/** Writes beside and renames: a process killed here leaves the old stamp or the new one. */
export function writeStamp(name, content) {
  mkdirSync(stamps, { recursive: true });
  replaceFile(join(stamps, name), content);
}

/** Puts `content` at `path` in one step, so that no reader meets half a file. */
export function replaceFile(path, content) {
  mkdirSync(dirname(path), { recursive: true });
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, content);
  renameSync(beside, path);
}

/** One hash over names and contents; `entries` are files or folders below the checkout. */
export function hashOf(entries, { keep = () => true, salt = "" } = {}) {
  const hash = createHash("sha256").update(salt);
  for (const path of entries.flatMap((entry) => filesBelow(entry)).sort()) {
    if (keep(path)) hash.update(`\0${path}\0`).update(readFileSync(join(root, path)));
  }
  return hash.digest("hex");
}

function filesBelow(entry) {
  try {
    return readdirSync(join(root, entry), { withFileTypes: true }).flatMap((item) =>
      item.isDirectory() ? filesBelow(`${entry}/${item.name}`) : [`${entry}/${item.name}`],
    );
  } catch (error) {
    if (error.code === "ENOTDIR") return [entry];
    if (error.code === "ENOENT") return [];
    throw error;
  }
}
