import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { dataTables, project, type StoredEvent } from "../trial/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { codeOf, fail } from "./trial.ts";

/** `trial export TRIAL --tables FOLDER`: log, readings, runs, masses and a dictionary of their columns. */
export async function writeTables(
  deps: CliDeps,
  events: readonly StoredEvent[],
  folder: string,
): Promise<Exit> {
  const files = dataTables(project(events), events);
  try {
    await mkdir(folder, { recursive: true });
    for (const { name, text } of files) await writeFile(join(folder, name), text);
  } catch (error) {
    return fail(deps, `${folder} cannot be written (${codeOf(error)}).`);
  }
  await outputOn(deps.stdout).write(`${folder}: ${files.map(({ name }) => name).join(", ")}\n`);
  return exit.done;
}
