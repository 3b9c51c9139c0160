// The npm packages of the lock file, installed without running their scripts.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { hashOf, root, stamp, writeStamp } from "./checkout.mjs";
import { SetUpError, npm, say } from "./run.mjs";
import { tail } from "./system.mjs";

/** Installs when the lock file, Node or the platform changed since the last time. */
export async function installPackages() {
  const wanted = hashOf(["package-lock.json"], {
    salt: [process.version, process.platform, process.arch].join(" "),
  });
  const present = existsSync(join(root, "node_modules/.package-lock.json"));
  if (present && stamp("packages") === wanted) return;
  const count = Object.keys(JSON.parse(readFileSync(join(root, "package-lock.json"))).packages);
  say(`installing ${count.length - 1} packages (the first time takes a minute or less)`);
  const done = await npm([
    "ci",
    "--ignore-scripts",
    "--include=dev",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
  ]);
  if (done.code !== 0) {
    throw new SetUpError(
      `npm could not install the packages:\n${tail(done.output)}\nCheck the connection to the npm registry (or that npm's cache holds them), then try again.`,
    );
  }
  writeStamp("packages", wanted);
}
