// Running other programs: quiet while all is well, their whole output when they fail.
import { spawn } from "node:child_process";
import { accessSync, constants, realpathSync } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./checkout.mjs";

/** A failure whose message tells the person what to do; anything else that is thrown is our bug. */
export class SetUpError extends Error {}

export function say(sentence) {
  console.error(`coldproof: ${sentence}`);
}

/**
 * Runs a program to its end with its output kept.
 *
 * @returns code (-1: could not start or was stopped by a signal or by `timeout`, ms) and output.
 */
export function run(command, args, { env = {}, cwd = root, timeout } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd,
      env: { ...process.env, ...env },
      stdio: ["ignore", "pipe", "pipe"],
      ...(timeout === undefined ? {} : { timeout, killSignal: "SIGKILL" }),
    });
    let output = "";
    const keep = (chunk) => (output += chunk);
    child.stdout.setEncoding("utf8").on("data", keep);
    child.stderr.setEncoding("utf8").on("data", keep);
    child.on("error", (error) => resolve({ code: -1, output: `${output}${error.message}\n` }));
    child.on("close", (code) => resolve({ code: code ?? -1, output }));
  });
}

/** npm as a child: the one that started us when there is one, so that versions do not mix. */
export function npm(args, options) {
  const own = process.env.npm_execpath;
  if (own && /npm-cli\.c?js$/.test(own)) return run(process.execPath, [own, ...args], options);
  return process.platform === "win32" ? run("npm.cmd", args, options) : run("npm", args, options);
}

/** Full path of a program on PATH, or undefined. */
export function which(name) {
  for (const folder of (process.env.PATH ?? "").split(delimiter)) {
    const path = join(folder, name);
    try {
      accessSync(path, constants.X_OK);
      return path;
    } catch {
      // Not in this folder; the next one may have it.
    }
  }
  return undefined;
}

/** Was this module started by `node`, rather than imported? A checkout may lie behind a link. */
export function isMain(url) {
  const started = process.argv[1];
  return started !== undefined && url === pathToFileURL(realpathSync(started)).href;
}

/** Runs a script's main; a SetUpError is told in its own words and ends the process with code 1. */
export async function runScript(main) {
  try {
    await main();
  } catch (error) {
    if (!(error instanceof SetUpError)) throw error;
    console.error(`coldproof: ${error.message}`);
    process.exit(1);
  }
}
