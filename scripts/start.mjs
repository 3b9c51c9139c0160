// `npm start`: makes the checkout ready, then serves the app from this very process, so that Ctrl-C
// and SIGTERM reach the server.
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { setUp } from "./set-up.mjs";
import { root } from "./steps/checkout.mjs";
import { runScript } from "./steps/run.mjs";

await runScript(() => setUp());
const { main } = await import(pathToFileURL(join(root, "dist/coldproof.mjs")).href);
process.exitCode = await main({ argv: ["serve", ...process.argv.slice(2)], process, root });
