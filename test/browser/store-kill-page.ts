import { openBrowserStore } from "../../src/store/browser.ts";
import { note, trialId } from "../doors/sample-events.ts";

/**
 * Runs inside a page that is killed: adds batches that are packed at once, and says so only when each is
 * safe. Numbers go on where the store ends.
 */
const store = await openBrowserStore("killed");
const sizes = [60, 1, 130, 7, 50, 600];

const there = async () => {
  const { events, cursor } = await store.read(trialId(1));
  const isWhole = events.every(({ id }, i) => id === note(i).id) && cursor === events.length;
  return { count: events.length, isWhole, waiting: (await store.outbox(0)).count };
};

async function goOn(): Promise<void> {
  let { count } = await there();
  for (let i = 0; ; i++) {
    const size = sizes[i % sizes.length] ?? 1;
    const outcome = await store.append(Array.from({ length: size }, (_, k) => note(count + k)));
    if (outcome.kind !== "appended") throw new Error(outcome.kind);
    count += size;
    // Not awaited: what is said was safe before.
    void (globalThis as unknown as { safe: (n: number) => Promise<void> }).safe(count);
  }
}

Object.assign(globalThis, { there, goOn });
