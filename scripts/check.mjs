// `npm test` after set-up: every check, all of them even when one fails, then a summary.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { audit } from "./audit.mjs";
import { root } from "./steps/checkout.mjs";
import { run } from "./steps/run.mjs";

/** Longest first, so that two lanes end together. */
const quiet = [
  ["lint", "eslint/bin/eslint.js", "."],
  ["types", "typescript/bin/tsc", "-b"],
  ["format", "prettier/bin/prettier.cjs", "--check", "--log-level=warn", "."],
  ["unused code", "knip/bin/knip.js"],
  [
    "arrows between rooms",
    "dependency-cruiser/bin/dependency-cruise.mjs",
    "src",
    "--config",
    ".dependency-cruiser.cjs",
  ],
];
const tests = ["tests", "vitest/vitest.mjs", "run"];
const results = [];

/** Two at a time: a third would only slow the others on the two cores that are promised. */
async function lane(queue) {
  for (let check = queue.shift(); check !== undefined; check = queue.shift()) {
    const [name, tool, ...args] = check;
    const started = Date.now();
    const { code, output } = await run(process.execPath, [
      join(root, "node_modules", tool),
      ...args,
    ]);
    note(name, code, started);
    if (code !== 0) console.log(`\n--- ${name} ---\n${output.trimEnd()}\n`);
  }
}

/** Waits for the registry, not for the processor: beside the others. */
async function known() {
  const started = Date.now();
  note("known faults of dependencies", (await audit(console.log)) ? 0 : 1, started);
}

/** The tests run alone and are shown as they go: some of them measure time. */
function runTests() {
  const [name, tool, ...args] = tests;
  const started = Date.now();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(root, "node_modules", tool), ...args], {
      cwd: root,
      stdio: ["ignore", "inherit", "inherit"],
    });
    child.on("error", () => resolve(-1));
    child.on("close", (code) => resolve(code ?? -1));
  }).then((code) => note(name, code, started));
}

function note(name, code, started) {
  const seconds = (Date.now() - started) / 1000;
  results.push({ name, code, seconds });
  console.log(`${code === 0 ? "passed" : "FAILED"}  ${name} (${seconds.toFixed(1)} s)`);
}

const started = Date.now();
const queue = [...quiet];
await Promise.all([lane(queue), lane(queue), known()]);
await runTests();
const failed = results.filter(({ code }) => code !== 0).map(({ name }) => name);
const total = ((Date.now() - started) / 1000).toFixed(0);
console.log(
  failed.length === 0
    ? `\nAll ${results.length} checks passed in ${total} s.`
    : `\nFailed after ${total} s: ${failed.join(", ")}.`,
);
process.exitCode = failed.length === 0 ? 0 : 1;
