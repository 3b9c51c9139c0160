import type { UnitSystem } from "../report/index.ts";
import type { CliDeps } from "./deps.ts";
import type { Exit } from "./exit.ts";
import { readKey } from "./key.ts";
import { writeTables } from "./tables.ts";
import { exportText, fail, putText, withTrial } from "./trial.ts";

interface Where {
  readonly data?: string;
  readonly out?: string;
}

/** `trial export TRIAL` */
export const exportTo = (
  deps: CliDeps,
  id: string,
  options: Where & { readonly tables?: string },
) =>
  withTrial(deps, id, options.data, (events) =>
    options.tables === undefined
      ? putText(deps, exportText(events), options.out)
      : writeTables(deps, events, options.tables),
  );

/** `trial report TRIAL` */
export async function reportTo(
  deps: CliDeps,
  id: string,
  { sign, units, data, out }: Where & { readonly units: UnitSystem; readonly sign?: string },
): Promise<Exit> {
  const key = sign === undefined ? undefined : await readKey(sign);
  if (key?.kind === "none") return fail(deps, key.why);
  return withTrial(deps, id, data, (events) =>
    putText(deps, deps.report(events, units, key?.key), out),
  );
}
