import { readFile } from "node:fs/promises";
import { checkReport, type Verification } from "../report/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { fail } from "./trial.ts";

/** `trial verify FILE`: everything worked out again from the file alone; the log of this machine is not asked. */
export async function verifyFile(
  deps: CliDeps,
  file: string,
  options: { readonly json?: boolean },
): Promise<Exit> {
  let html: string;
  try {
    html = await readFile(file, "utf8");
  } catch {
    return fail(deps, `${file} cannot be read. Check its name.`);
  }
  const seen = checkReport(html, deps.version);
  const text = options.json === true ? `${JSON.stringify(withoutLog(seen))}\n` : words(file, seen);
  await outputOn(deps.stdout).write(text);
  if (seen.kind === "not-a-report") return exit.invalid;
  return seen.sound ? exit.done : exit.unsound;
}

/** The entries themselves are in the file already. */
function withoutLog(seen: Verification) {
  if (seen.kind === "not-a-report") return seen;
  const { events, ...rest } = seen;
  return { ...rest, entries: events.length };
}

const marks = { holds: "holds    ", fails: "FAILS    ", "not-asked": "not asked" } as const;
const shownDifferences = 10;

function words(file: string, seen: Verification): string {
  if (seen.kind === "not-a-report") return `${file} cannot be checked: ${seen.why}.\n`;
  const { checks, differences, signedBy, sound, trial, program } = seen;
  const lines = [
    `${file}: report of trial ${trial}, written by version ${program}`,
    ...checks.map(({ outcome, sentence }) => `  ${marks[outcome]}  ${sentence}`),
    ...differences
      .slice(0, shownDifferences)
      .map(
        ({ at, stated, recomputed }) =>
          `  ${at}: stated ${said(stated)}, follows ${said(recomputed)}`,
      ),
    ...(differences.length > shownDifferences
      ? [`  and ${differences.length - shownDifferences} more differences`]
      : []),
    ...(signedBy === undefined ? [] : [`  Public key of the signature: ${signedBy}`]),
    sound ? "The report holds." : "The report does NOT hold.",
  ];
  return `${lines.join("\n")}\n`;
}

const said = (value: unknown): string =>
  value === undefined ? "nothing" : JSON.stringify(value).slice(0, 120);
