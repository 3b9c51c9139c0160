// Prints seconds of the comparison in equal conditions: the invented trial of harbour.json, 24 runs of a baseline, its
// restore and three products, in Node and in the app's own worker in the browser that the tests use.
//
// Called by bench.mjs with the bundled room of the log. The browser's part opens the built app and starts the worker
// as the Compare board does; it needs `node scripts/set-up.mjs --test`, and says so where that was not run.
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { performance } from "node:perf_hooks";

const root = new URL("..", import.meta.url).pathname;
const wanted = { node: 2, browser: 3 };
const repeats = 3;

/** Prints the rows of the comparison. */
export async function benchComparison({ fairComparisonOf, project }) {
  const { events } = JSON.parse(
    readFileSync(join(root, "data/demonstration/harbour.json"), "utf8"),
  );
  console.log("\nSeconds of the comparison of 24 runs; in brackets what 20 runs may take.");
  const node = Array.from({ length: repeats }, () => {
    const view = project(events);
    const began = performance.now();
    if (fairComparisonOf(view).kind !== "compared") throw new Error("nothing was compared");
    return (performance.now() - began) / 1000;
  });
  row("Node, first", node[0], wanted.node);
  row("Node, median", median(node), wanted.node);
  const stamp = join(root, ".stamps/browser");
  if (!existsSync(stamp)) {
    console.log("browser: not set up (node scripts/set-up.mjs --test)");
    return;
  }
  const found = await inBrowser(readFileSync(stamp, "utf8"), events);
  row("browser worker, first", found[0].seconds, wanted.browser);
  row("browser worker, median", median(found.map(({ seconds }) => seconds)), wanted.browser);
  const { told, first, off } = found.at(-1);
  console.log(
    `progress was told ${told} times, first after ${first.toFixed(2)} s; at most ${(100 * off).toFixed(0)} % of the time away from the share told`,
  );
}

const median = (values) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

function row(label, value, limit) {
  console.log(`${label.padEnd(36)}${value.toFixed(2)} (${limit})`);
}

const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css" };

/** The built app on a port of its own. */
async function serveApp() {
  const folder = join(root, "dist/web");
  const server = createServer(({ url }, response) => {
    const path = join(folder, new URL(url, "http://app").pathname);
    const file = existsSync(path) && extname(path) ? path : join(folder, "index.html");
    response.setHeader("content-type", types[extname(file)] ?? "application/octet-stream");
    response.end(readFileSync(file));
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return server;
}

async function inBrowser(executablePath, events) {
  const { chromium } = await import("playwright-core");
  const server = await serveApp();
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${server.address().port}/`);
    const found = [];
    for (let k = 0; k < repeats; k++) found.push(await page.evaluate(askWorker, events));
    return found;
  } finally {
    await browser.close();
    server.close();
  }
}

/** Inside the page: one comparison as the board asks for it, and how far its progress was from the truth. */
function askWorker(events) {
  return new Promise((resolve, reject) => {
    const worker = new globalThis.Worker("/assets/fair-worker.js", { type: "module" });
    const began = performance.now();
    const told = [];
    worker.addEventListener("error", ({ message }) => reject(new Error(message)));
    worker.addEventListener("message", ({ data }) => {
      const seconds = (performance.now() - began) / 1000;
      if (data.kind === "progress") {
        told.push({ seconds, share: data.share });
        return;
      }
      worker.terminate();
      if (data.found.kind !== "compared") reject(new Error(data.found.why));
      const off = told.map((each) => Math.abs(each.seconds / seconds - each.share));
      resolve({ seconds, told: told.length, first: told[0]?.seconds, off: Math.max(...off) });
    });
    worker.postMessage({ events });
  });
}
