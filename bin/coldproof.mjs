#!/usr/bin/env node
// The command. What it does is built into dist; a checkout that was never set up gets told how.
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const built = new URL("../dist/coldproof.mjs", import.meta.url);
const root = fileURLToPath(new URL("../", import.meta.url));
if (!existsSync(built)) {
  console.error(
    `coldproof: not built yet. Run this once, then try again:\n  cd ${root} && node scripts/set-up.mjs`,
  );
  process.exit(1);
}
const { main } = await import(built.href);
process.exitCode = await main({ argv: process.argv.slice(2), process, root });
