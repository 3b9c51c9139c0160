// Asks the registry whether packages in the lock file have known faults.
import { isMain, npm } from "./steps/run.mjs";

/** A registry that answers does so in a second or two; npm's own patience is minutes. */
const patience = 10_000;
const grave = ["high", "critical"];

/**
 * What `npm audit --json` answered, in words.
 *
 * @param output its two streams together.
 * @param fails  severities that fail the check; any that is high or critical is told by name.
 * @returns kind `sound`, `faulty` or `unknown` (the registry gave no answer), and a sentence.
 */
export function readAudit(output, fails = grave) {
  const answer = jsonIn(output);
  const found = answer?.vulnerabilities;
  if (answer?.auditReportVersion !== 2 || typeof found !== "object" || found === null) {
    const why = answer?.message ?? answer?.error?.summary;
    return { kind: "unknown", words: `the registry gave no answer${why ? ` (${why})` : ""}` };
  }
  const bad = Object.values(found).filter(({ severity }) => grave.includes(severity));
  const names = bad.map(({ name, severity, range }) => `${name} ${range}: ${severity}`).sort();
  const others = Object.keys(found).length - bad.length;
  return {
    kind: bad.some(({ severity }) => fails.includes(severity)) ? "faulty" : "sound",
    words: [...names, `${others} known faults of a lower level`].join("; "),
  };
}

/** npm writes notes before and after its answer. */
function jsonIn(output) {
  const from = output.search(/^\{/m);
  const to = output.lastIndexOf("\n}");
  try {
    return JSON.parse(output.slice(from, to < from ? undefined : to + 2));
  } catch {
    return undefined;
  }
}

/**
 * Audits what is shipped, and the tools: those fail only when a fault is critical, because they never see a
 * stranger's input.
 *
 * @returns true unless there is a known fault; no answer is no fault, and is said.
 */
export async function audit(say, timeout = patience) {
  const ask = (...more) => npm(["audit", "--json", "--fetch-retries=0", ...more], { timeout });
  const [shipped, all] = await Promise.all([ask("--omit=dev"), ask()]);
  let sound = true;
  for (const [what, { kind, words }] of [
    ["dependencies that are shipped", readAudit(shipped.output)],
    ["dependencies and tools", readAudit(all.output, ["critical"])],
  ]) {
    say(`${what}: ${kind === "unknown" ? "not audited: " : ""}${words}`);
    sound &&= kind !== "faulty";
  }
  return sound;
}

if (isMain(import.meta.url)) process.exitCode = (await audit(console.log)) ? 0 : 1;
