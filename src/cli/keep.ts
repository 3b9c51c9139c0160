import { backupTo, type Contents, contentsOf, FaultyBackup, restoreFrom } from "../store/index.ts";
import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { fail, withStore } from "./trial.ts";

/** `backup FILE` */
export function backup(deps: CliDeps, file: string, options: { data?: string }): Promise<Exit> {
  return withStore(deps, options.data, (store) =>
    saying(deps, file, async () => {
      const contents = await backupTo(store, file, new Date(deps.now()));
      return `${file} holds ${inWords(contents)}\n`;
    }),
  );
}

/** `restore FILE` */
export function restore(deps: CliDeps, file: string, options: { data?: string }): Promise<Exit> {
  return withStore(deps, options.data, (store) =>
    saying(deps, file, async () => {
      const { added, conflicts, ...contents } = await restoreFrom(store, file);
      const differing =
        conflicts.length > 0
          ? `The log has ${conflicts.length} of them with other content, and keeps its own: ${conflicts.slice(0, 10).join(", ")}\n`
          : "";
      return `${file} holds ${inWords(contents)}\n${added} entries added, ${contents.events - added} were here before.\n${differing}`;
    }),
  );
}

/** `log verify` */
export function verifyLog(deps: CliDeps, options: { data?: string }): Promise<Exit> {
  return withStore(deps, options.data, (store) =>
    saying(deps, "the log", async () => `The log holds ${inWords(await contentsOf(store))}\n`),
  );
}

function inWords({ workspaces, trials, events, seal }: Contents): string {
  return `${events} entries of ${trials} trials in ${workspaces} workspaces; every chain is sound.\nSeal ${seal}`;
}

/** Says the outcome, or what is wrong with a copy or a file. */
async function saying(deps: CliDeps, what: string, work: () => Promise<string>): Promise<Exit> {
  try {
    await outputOn(deps.stdout).write(await work());
    return exit.done;
  } catch (error) {
    if (error instanceof FaultyBackup) {
      const { line, what: fault } = error.fault;
      await fail(deps, `${what}: ${line > 0 ? `line or entry ${line} ` : ""}${fault}.`);
      return exit.invalid;
    }
    if (error instanceof Error && "code" in error) {
      return fail(deps, `${what} cannot be read or written (${String(error.code)}).`);
    }
    throw error;
  }
}
