// `npm start`: makes the checkout ready, then serves the app from this very process, so that Ctrl-C
// and SIGTERM reach the server.
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { runScript, setUp } from "./set-up.mjs";

await runScript(() => setUp());
const { root } = await import("./steps/checkout.mjs");
const { main } = await import(pathToFileURL(join(root, "dist/coldproof.mjs")).href);
process.exitCode = await main({ argv: ["serve", ...process.argv.slice(2)], process, root });
