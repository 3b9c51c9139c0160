import type { UnitSystem } from "../report/index.ts";
import type { StoredEvent } from "../trial/index.ts";
import type { CliDeps } from "./deps.ts";
import type { Exit } from "./exit.ts";
import { readKey } from "./key.ts";
import { redactedLog, type RedactOptions } from "./redact.ts";
import { writeTables } from "./tables.ts";
import { exportText, fail, putText, withTrial } from "./trial.ts";

interface Leaving extends RedactOptions {
  readonly data?: string;
  readonly out?: string;
}
export type ExportOptions = Leaving & { readonly tables?: string };
export type ReportOptions = Leaving & { readonly units: UnitSystem; readonly sign?: string };

/** A trial's log, with what is to be hidden hidden. */
const leaving = (
  deps: CliDeps,
  id: string,
  options: Leaving,
  work: (events: readonly StoredEvent[]) => Promise<Exit>,
) =>
  withTrial(deps, id, options.data, async (events) => {
    const log = await redactedLog(deps, events, options);
    return log.kind === "refused" ? fail(deps, log.why) : work(log.events);
  });

/** `trial export TRIAL` */
export const exportTo = (deps: CliDeps, id: string, options: ExportOptions) =>
  leaving(deps, id, options, (events) =>
    options.tables === undefined
      ? putText(deps, exportText(events), options.out)
      : writeTables(deps, events, options.tables),
  );

/** `trial report TRIAL` */
export async function reportTo(deps: CliDeps, id: string, options: ReportOptions): Promise<Exit> {
  const { sign, units, out } = options;
  const key = sign === undefined ? undefined : await readKey(sign);
  if (key?.kind === "none") return fail(deps, key.why);
  return leaving(deps, id, options, (events) =>
    putText(deps, deps.report(events, units, key?.key), out),
  );
}
