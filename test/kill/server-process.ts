import { createApp, listen } from "../../src/server/index.ts";
import { openStore } from "../../src/store/index.ts";
import { plainCalculation } from "../doors/plain-calculation.ts";

/**
 * The server as a process to be killed: the real store, the real routes, the real socket, without the
 * app and the physics. Writes its address on one line when it listens.
 */
const opened = await openStore(process.argv[2] ?? "");
if (opened.kind !== "opened") throw new Error(`${opened.reason}: ${opened.detail}`);
const app = createApp({
  store: opened.store,
  ...plainCalculation,
  report: () => Promise.resolve(""),
  site: new Map(),
  onFault: (error) => {
    throw error;
  },
});
const server = await listen(app, { port: 0, exact: true });
if (server.kind === "refused") throw new Error(server.reason);
process.stdout.write(`${server.url}\n`);
