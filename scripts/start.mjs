// `npm start`: makes the checkout ready, then serves the app from this very process, so that Ctrl-C
// and SIGTERM reach the server.
import { join } from "node:path";
import { clearInterval, setInterval } from "node:timers";
import { pathToFileURL } from "node:url";
import { setUp } from "./set-up.mjs";
import { root } from "./steps/checkout.mjs";
import { runScript } from "./steps/run.mjs";

if (process.env.npm_lifecycle_event !== undefined) stopWithParent(process.ppid);
await runScript(() => setUp());
const { main } = await import(pathToFileURL(join(root, "dist/coldproof.mjs")).href);
process.exitCode = await main({ argv: ["serve", ...process.argv.slice(2)], process, root });

/**
 * npm starts scripts through a shell, which dies of a SIGTERM without passing it on. A server whose
 * parent has gone would stay for ever and hold its port.
 */
function stopWithParent(parent) {
  const watch = setInterval(() => {
    if (process.ppid === parent) return;
    clearInterval(watch);
    process.kill(process.pid, "SIGTERM");
  }, 250);
  watch.unref();
}
