import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect } from "vitest";
import { remoteOver, synchronise } from "../../src/store/browser.ts";
import { logSeal, parseExport, project, type StoredEvent } from "../../src/trial/index.ts";
import { base, memoryServer } from "../doors/memory-server.ts";
import { root } from "../kill/bundle.ts";
import { memoryDevice } from "./memory-device.ts";
import { type Fate, network } from "./network.ts";

const devices = 5;

/** The demonstration's log without its large files: transfers, weighings, readings, corrections. */
const log = theLog();
const ledgerOf = (events: readonly StoredEvent[]) => project(events).ledger;
const trial = log[0]?.trial ?? "";

function theLog(): readonly StoredEvent[] {
  const file = join(root, "data/demonstration/hill-town.json");
  const parsed = parseExport(JSON.parse(readFileSync(file, "utf8")));
  if (parsed.kind === "invalid") throw new Error("the demonstration is no export");
  return parsed.events.filter(({ type }) => type !== "trace-imported");
}

const fate = fc.oneof(
  { weight: 4, arbitrary: fc.constant<Fate>("delivered") },
  { weight: 1, arbitrary: fc.constantFrom<Fate>("lost", "answer-lost", "doubled", "late") },
);
/** One step: a device makes entries (perhaps ones that another one made, too), or synchronises. */
const step = fc.record({
  device: fc.nat(devices - 1),
  entries: fc.nat(12),
  synchronise: fc.boolean(),
  repeats: fc.array(fc.nat(log.length - 1), { maxLength: 3 }),
});

/**
 * Five devices make the entries of one log in any order, send them through a network that loses, repeats
 * and delays, some at the same time; when the network is sound again, all of them and the server hold the
 * same log and the same ledger.
 */
export async function checkSynchronisation(numRuns: number, seed: number): Promise<void> {
  const expected = { seal: logSeal(log), ledger: ledgerOf(log) };
  await fc.assert(
    fc.asyncProperty(
      fc.shuffledSubarray([...log], { minLength: log.length, maxLength: log.length }),
      fc.array(step, { minLength: 10, maxLength: 60 }),
      fc.array(fate, { maxLength: 300 }),
      async (entries, steps, fates) => {
        const { handle, store, faults } = await memoryServer();
        const { fetch, settle } = network(handle, fates.values());
        const all = Array.from({ length: devices }, () => memoryDevice());
        const remote = remoteOver(fetch, base);
        const running: Promise<unknown>[] = [];
        let made = 0;
        for (const { device, entries: count, synchronise: now, repeats } of steps) {
          const own = [
            ...entries.slice(made, made + count),
            ...repeats.flatMap((i) => log[i] ?? []),
          ];
          made += count;
          const at = all[device] ?? memoryDevice();
          if (own.length > 0) await at.append(own);
          // Not awaited: rounds of several devices, and two of one device, run into one another.
          if (now) running.push(synchronise(at, remote));
        }
        await all[0]?.append(entries.slice(made));
        await Promise.all(running);
        await settle();
        const sound = remoteOver(handle, base);
        for (let round = 0; round < 2; round++) {
          for (const device of all) {
            expect(await synchronise(device, sound)).toMatchObject({
              kind: "synchronised",
              refused: [],
              conflicts: [],
            });
          }
        }
        const logs = [
          await store.read(trial),
          ...(await Promise.all(all.map((one) => one.read(trial)))),
        ];
        for (const { events } of logs) {
          expect(events).toHaveLength(log.length);
          expect(logSeal(events)).toBe(expected.seal);
        }
        expect(ledgerOf(logs[0]?.events ?? [])).toEqual(expected.ledger);
        for (const device of all) expect((await device.outbox(0)).count).toBe(0);
        for await (const verdict of store.verify()) expect(verdict.kind).toBe("sound");
        expect(faults).toEqual([]);
        await store.close();
      },
    ),
    { numRuns, seed },
  );
}
