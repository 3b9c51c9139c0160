import { expect, test } from "vitest";
import { remoteOver, synchronise } from "../../src/store/browser.ts";
import { contract } from "../doors/contract.ts";
import { base, memoryServer } from "../doors/memory-server.ts";
import { note, trialId } from "../doors/sample-events.ts";
import { memoryDevice } from "./memory-device.ts";
import { checkSynchronisation } from "./rounds.ts";

test("any interleaving, loss, repetition and delay among five devices ends in one log and one ledger", () =>
  checkSynchronisation(60, 20260614));

// The stand-in keeps what every store keeps, so that the property says something about the real one.
const lasting = /closing and opening again/;
test.for(contract.filter(({ name }) => !lasting.test(name)))(
  "device in memory: $name",
  ({ check }) => check(memoryDevice(), () => Promise.reject(new Error("it does not last"))),
);

test("a server set back to an older copy gets everything again, although others wrote on since", async () => {
  const device = memoryDevice();
  const lost = await memoryServer();
  await device.append([note(1), note(2), note(3)]);
  await synchronise(device, remoteOver(lost.handle, base));
  await synchronise(device, remoteOver(lost.handle, base));
  // The copy knows one event; two from another device came since: the count alone would not tell.
  const copy = await memoryServer();
  await copy.store.append([note(1), note(8), note(9)]);
  await synchronise(device, remoteOver(copy.handle, base));
  const ids = (await copy.store.read(trialId(1))).events.map(({ id }) => id).sort();
  expect(ids).toEqual([1, 2, 3, 8, 9].map((n) => note(n).id));
  expect((await device.read(trialId(1))).events).toHaveLength(5);
});

test("a log longer than one answer is fetched in pieces", async () => {
  const { handle, store } = await memoryServer();
  await store.append(Array.from({ length: 20_500 }, (_, i) => note(i)));
  const device = memoryDevice();
  const asked: string[] = [];
  const remote = remoteOver((request) => {
    asked.push(new URL(request.url).search);
    return handle(request);
  }, base);
  expect(await synchronise(device, remote)).toMatchObject({ kind: "synchronised", pulled: 20_500 });
  expect(asked.filter((search) => search !== "")).toEqual(["?after=0", "?after=20000"]);
});
