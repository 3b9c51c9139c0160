import type { Kysely } from "kysely";
import type { Tables } from "./schema.ts";

/** Written so seldom that it costs nothing beside the events, ms. */
const every = 60_000;

/**
 * When devices last asked for something, to the minute: gathered in memory and written together, in one statement a
 * minute and at the end. A process that is killed forgets its last minute.
 */
export function seenDevices(db: Kysely<Tables>) {
  const waiting = new Map<string, string>();
  let timer: NodeJS.Timeout | undefined;

  const write = async (): Promise<void> => {
    clearTimeout(timer);
    timer = undefined;
    const [ids, seen] = [[...waiting.keys()], [...waiting.values()].sort().at(-1)];
    waiting.clear();
    if (seen === undefined) return;
    const query = db.updateTable("device").set({ seen }).where("id", "in", ids);
    // A hint for people: what cannot be written is not worth a fault.
    await query.execute().catch(() => undefined);
  };
  return {
    note: (device: string, at: string): void => {
      waiting.set(device, at);
      if (timer !== undefined) return;
      timer = setTimeout(() => void write(), every);
      timer.unref();
    },
    /** What was noted and is not yet written. */
    of: (device: string): string | undefined => waiting.get(device),
    write,
  };
}
