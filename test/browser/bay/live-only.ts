import type { BrowserContext } from "playwright-core";

/** Pages of this context never ask the server by the clock: what reaches them was told to them. */
export async function liveOnly(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const every = globalThis.setInterval.bind(globalThis);
    const questions = 15_000;
    const stub = (what: () => void, ms?: number): number =>
      ms === questions ? 0 : Number(every(what, ms));
    Object.assign(globalThis, { setInterval: stub });
  });
}
