import { readFile, writeFile } from "node:fs/promises";
import { isSigningKey, newSigningKey, publicKeyOf, type SigningKey } from "../report/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { codeOf, fail } from "./trial.ts";

/** `key make FILE`: for its owner's eyes only, and never over a file that is there. */
export async function makeKey(deps: CliDeps, file: string): Promise<Exit> {
  const key = newSigningKey();
  try {
    await writeFile(file, `${key}\n`, { mode: 0o600, flag: "wx" });
  } catch (error) {
    const code = codeOf(error);
    return code === "EEXIST"
      ? fail(deps, `${file} exists already and was left as it is. Name another file.`)
      : fail(deps, `${file} cannot be written (${code}).`);
  }
  return say(deps, key);
}

/** `key show FILE` */
export async function showKey(deps: CliDeps, file: string): Promise<Exit> {
  const read = await readKey(file);
  return read.kind === "key" ? say(deps, read.key) : fail(deps, read.why);
}

async function say({ stdout }: CliDeps, key: SigningKey): Promise<Exit> {
  await outputOn(stdout).write(`Public key ${publicKeyOf(key)}\n`);
  return exit.done;
}

/** A key from its file, or why it is none. */
export async function readKey(
  file: string,
): Promise<{ kind: "key"; key: SigningKey } | { kind: "none"; why: string }> {
  try {
    const key = (await readFile(file, "utf8")).trim();
    if (isSigningKey(key)) return { kind: "key", key };
    return { kind: "none", why: `${file} holds no key. Make one with: coldproof key make FILE` };
  } catch (error) {
    return { kind: "none", why: `${file} cannot be read (${codeOf(error)}).` };
  }
}
