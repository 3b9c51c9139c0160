import { readFile, writeFile } from "node:fs/promises";
import type { LogStore, OpenOutcome } from "../store/index.ts";
import {
  exportTrial,
  type ParsedExport,
  parseExport,
  parseLogTable,
  project,
  type StoredEvent,
} from "../trial/index.ts";
import { parseJson, type WireIssue } from "../wire/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";

/** `--data`, else the environment's, else the checkout's. A file, or postgres://… */
export function dataPath({ env, defaultData }: CliDeps, option: string | undefined): string {
  return option ?? env["DATABASE_URL"] ?? env["COLDPROOF_DATA"] ?? defaultData;
}

/** Opens the log for one command and closes it again; says why when it cannot. */
export async function withStore(
  deps: CliDeps,
  data: string | undefined,
  work: (store: LogStore) => Promise<Exit>,
): Promise<Exit> {
  const outcome = await deps.openStore(dataPath(deps, data));
  if (outcome.kind === "refused") return fail(deps, sentence(outcome));
  try {
    return await work(outcome.store);
  } finally {
    await outcome.store.close();
  }
}

function sentence({ reason, path, detail }: Extract<OpenOutcome, { kind: "refused" }>): string {
  switch (reason) {
    case "newer-version":
      return `${path} was written by a newer version (${detail}). Update Coldproof; the file was not touched.`;
    case "damaged":
      return `${path} is damaged (${detail}). Keep it, and go on with a copy from your backup.`;
    case "not-a-log":
      return `${path} is not a log of Coldproof (${detail}). Name another file with --data.`;
    case "unreachable":
      return `${path} cannot be opened (${detail}). Check the folder and its permissions, or name another file with --data.`;
  }
}

export async function fail(deps: CliDeps, message: string): Promise<Exit> {
  await outputOn(deps.stderr).write(`coldproof: ${message}\n`);
  return exit.failed;
}

/** `trial list` */
export function listTrials(deps: CliDeps, options: { data?: string; json?: boolean }) {
  return withStore(deps, options.data, async (store) => {
    const output = outputOn(deps.stdout);
    const trials: { trial: string; events: number; title: string | null }[] = [];
    for (const { trial, events } of await store.trials()) {
      const title = titleOf((await store.read(trial)).events);
      trials.push({ trial, events, title });
    }
    const line = ({ trial, events, title }: (typeof trials)[number]) =>
      `${trial}  ${String(events).padStart(5)} entries  ${title ?? "(not opened)"}\n`;
    const words =
      trials.length > 0
        ? trials.map(line).join("")
        : "No trials yet. Begin one in the app, or take one in with: coldproof trial import FILE\n";
    await output.write(options.json === true ? `${JSON.stringify({ trials })}\n` : words);
    return exit.done;
  });
}

/** Read from the few entries that can hold or change it; a whole projection reads every trace. */
function titleOf(events: readonly StoredEvent[]): string | null {
  const relevant = new Set(["trial-opened", "entry-corrected", "entry-withdrawn"]);
  return project(events.filter(({ type }) => relevant.has(type))).opened?.title ?? null;
}

/** The same text as the server and the app give, so that files can be compared byte by byte. */
export function exportText(events: readonly StoredEvent[]): string {
  return JSON.stringify(exportTrial(events));
}

/** `trial import FILE` */
export function importTrial(deps: CliDeps, file: string, options: { data?: string }) {
  return withStore(deps, options.data, async (store) => {
    const text = await textOf(file);
    if (text === undefined) return fail(deps, `${file} cannot be read. Check its name.`);
    const parsed = parsedLog(text, file);
    if (parsed.kind === "invalid") return refuse(deps, file, parsed.issues);
    const outcome = await store.append(parsed.events);
    switch (outcome.kind) {
      case "appended": {
        const { accepted, duplicates } = outcome;
        await outputOn(deps.stdout).write(
          `${parsed.trial}: ${accepted.length} entries taken in, ${duplicates.length} were here before.\n`,
        );
        return exit.done;
      }
      case "refused":
        return fail(
          deps,
          `nothing was taken in: these entries are in the log with other content: ${outcome.conflicts.join(", ")}`,
        );
      case "failed":
        return fail(deps, `nothing was taken in: the disk did not take it (${outcome.reason}).`);
    }
  });
}

/** An exported trial, or its log as a table. */
function parsedLog(text: string, file: string): ParsedExport {
  if (!text.trimStart().startsWith("{")) {
    const table = parseLogTable(text);
    if (table.kind === "export" || /\.csv$/i.test(file)) return table;
  }
  const json = parseJson(text, file);
  return json.kind === "invalid" ? json : parseExport(json.value);
}

/** The first few issues: a wrong file has one in every line. */
async function refuse(deps: CliDeps, file: string, issues: readonly WireIssue[]): Promise<Exit> {
  const shown = issues.slice(0, 10).map(({ field, value, accepted }) => {
    return `  ${field}: found ${value === undefined ? "nothing" : JSON.stringify(value)}, accepted is ${accepted}\n`;
  });
  const more = issues.length > 10 ? `  and ${issues.length - 10} more\n` : "";
  const heading = `coldproof: ${file} cannot be taken in:\n`;
  await outputOn(deps.stderr).write(heading + shown.join("") + more);
  return exit.invalid;
}

/** Finds a trial by its id or the beginning of it, and does something with its entries. */
export function withTrial(
  deps: CliDeps,
  id: string,
  data: string | undefined,
  work: (events: readonly StoredEvent[]) => Promise<Exit>,
) {
  return withStore(deps, data, async (store) => {
    const found = (await store.trials()).filter(({ trial }) => trial.startsWith(id.toLowerCase()));
    const [only] = found;
    if (only === undefined || found.length > 1) {
      const what = found.length > 1 ? "more than one trial begins with" : "no trial begins with";
      return fail(deps, `${what} ${id}. See: coldproof trial list`);
    }
    return work((await store.read(only.trial)).events);
  });
}

/** A text to a file, or to standard output. */
export async function putText(deps: CliDeps, text: string, out: string | undefined): Promise<Exit> {
  if (out === undefined) {
    await outputOn(deps.stdout).write(text);
    return exit.done;
  }
  try {
    await writeFile(out, text);
  } catch (error) {
    return fail(deps, `${out} cannot be written (${codeOf(error)}).`);
  }
  return exit.done;
}

async function textOf(file: string): Promise<string | undefined> {
  try {
    return await readFile(file, "utf8");
  } catch {
    return undefined;
  }
}

/** What the system calls an error. */
export function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : String(error);
}
