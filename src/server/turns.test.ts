import { expect, test } from "vitest";
import { longLog } from "../../scripts/bench-trial.mjs";
import { get, memoryServer, post } from "../../test/doors/memory-server.ts";
import { note, trialId } from "../../test/doors/sample-events.ts";
import { exportTrial } from "../trial/index.ts";

// No clock: what is counted is how often others had their turn while long work was under way.
const log = longLog("readings", 8000);
const trial = log[0]?.trial ?? "";
const file = JSON.stringify(exportTrial(log));

/** Asks again and again until the work is done; gives how often an answer came. */
async function answersDuring(work: Promise<Response>, ask: (n: number) => Promise<unknown>) {
  const state = { isDone: false };
  const done = work.then((response) => {
    state.isDone = true;
    return response;
  });
  let answers = 0;
  // Out of turn with what runs: the next request comes when the loop of events has gone round.
  while (!state.isDone) {
    await ask(++answers);
    await new Promise((next) => setImmediate(next));
  }
  return { response: await done, answers };
}

/** Each event is looked at five times, in slices of 250 to 500; a batch of another trial has to wait for the writing. */
const fewest = 20;

test.for([
  ["a question that needs no log", (handle: Handle) => () => handle(get("/api/calculations"))],
  [
    "a batch of one event of another trial",
    (handle: Handle) => (n: number) =>
      handle(post(`/api/trials/${trialId(2)}/events`, { events: [note(n, { trial: 2 })] })),
  ],
] as const)("while 8,000 events are taken in, others are answered: %s", async ([, asking]) => {
  const { handle, store } = await memoryServer();
  const work = handle(post("/api/trials/import", file));
  const { response, answers } = await answersDuring(work, asking(handle));
  expect(response.status).toBe(200);
  expect((await store.read(trial)).cursor).toBe(8000);
  expect(answers).toBeGreaterThan(fewest);
});

type Handle = Awaited<ReturnType<typeof memoryServer>>["handle"];

test("the same while a large batch is taken, and while a long log goes out", async () => {
  const { handle, store } = await memoryServer();
  const ask = () => handle(get("/api/trials"));
  for (const part of [log.slice(4000), log.slice(0, 4000)]) {
    const batch = handle(post(`/api/trials/${trial}/events`, { events: part }));
    const { response, answers } = await answersDuring(batch, ask);
    expect(response.status).toBe(200);
    expect(answers).toBeGreaterThan(fewest);
  }
  const going = handle(get(`/api/trials/${trial}/export`));
  const { response, answers } = await answersDuring(going, ask);
  expect(answers).toBeGreaterThanOrEqual(4);
  const { events } = await store.read(trial);
  expect(events[0]).toEqual(log[4000]);
  expect(await response.json()).toEqual(exportTrial(events));
});
