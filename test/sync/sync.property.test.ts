import { expect, test } from "vitest";
import { remoteOver, synchronise } from "../../src/store/browser.ts";
import { contract } from "../doors/contract.ts";
import { base, memoryServer } from "../doors/memory-server.ts";
import { note, trialId } from "../doors/sample-events.ts";
import { sharedServer, shopAddress, stranger } from "../doors/shared-server.ts";
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

test("a round without news asks one question, one with news asks for that trial only", async () => {
  const { handle, store } = await memoryServer();
  const trials = Array.from({ length: 30 }, (_, i) => i + 1);
  await store.append(trials.map((trial) => note(trial, { trial })));
  const device = memoryDevice();
  const asked: string[] = [];
  const remote = remoteOver((request) => {
    asked.push(`${request.method} ${new URL(request.url).pathname}`);
    return handle(request);
  }, base);
  await synchronise(device, remote);
  expect(asked).toHaveLength(31);
  const list = "GET /api/trials";
  const events = (trial: number) => `/api/trials/${trialId(trial)}/events`;
  const round = async () => {
    asked.length = 0;
    expect(await synchronise(device, remote)).toMatchObject({ kind: "synchronised" });
    return asked;
  };
  expect(await round()).toEqual([list]);
  await store.append([note(101, { trial: 7 })]);
  expect(await round()).toEqual([list, `GET ${events(7)}`]);
  await device.append([note(102, { trial: 9 })]);
  expect(await round()).toEqual([list, `POST ${events(9)}`, `GET ${events(9)}`]);
  expect(await round()).toEqual([list]);
  expect((await device.read(trialId(7))).events).toHaveLength(2);
});

test("a log is exchanged with its own workspace only", async () => {
  const [alpha, beta] = [await sharedServer(), await sharedServer()];
  const [a, b] = [await alpha.shop("alpha"), await beta.shop("beta")];
  const over = ({ handle }: typeof alpha, key: string) =>
    remoteOver((request) => {
      request.headers.set("authorization", `Bearer ${key}`);
      return handle(request, stranger);
    }, shopAddress);
  const device = memoryDevice();
  await device.append([note(1)]);
  await synchronise(device, over(alpha, a.owner));
  await device.append([note(2)]);
  expect(await synchronise(device, over(beta, b.owner))).toEqual({
    kind: "interrupted",
    reason: "other-workspace",
    waiting: 1,
    workspace: b.id,
  });
  expect(await beta.store.in(b.id).trials()).toEqual([]);
  expect(await synchronise(device, over(alpha, a.owner))).toMatchObject({ pushed: 1 });
});
