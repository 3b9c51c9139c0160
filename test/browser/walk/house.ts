import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { builtApp } from "../../../scripts/build.mjs";
import { calculations, compute } from "../../../src/calculations/index.ts";
import { renderReport } from "../../../src/report/index.ts";
import { createApp, listen, readSite } from "../../../src/server/index.ts";
import { openSqliteStore } from "../../../src/store/index.ts";
import { root } from "../../kill/bundle.ts";

export const inputs = join(root, "data/demonstration");

/** Folders to remove and servers to stop when the tests are over. */
const ends: (() => Promise<void> | void)[] = [];

export async function endAll(): Promise<void> {
  for (const end of ends.reverse()) await end();
}

function folderFor(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), `coldproof-${name}-`));
  ends.push(() => {
    rmSync(folder, { recursive: true });
  });
  return folder;
}

/** The app as it is shipped: the one that set-up built, or one of the sources as they are now. */
export async function buildApp(): Promise<string> {
  const built = builtApp();
  if (built !== undefined) return built;
  const outDir = folderFor("app");
  await build({
    root: join(root, "src/web"),
    configFile: join(root, "src/web/vite.config.ts"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  return outDir;
}

type Handle = (request: Request) => Promise<Response>;

/**
 * A server of its own with an empty log on disk.
 *
 * @param around puts something before the server, such as one that asks for keys.
 */
export async function openHouse(
  app: string,
  around: (handle: Handle) => Handle = (handle) => handle,
): Promise<string> {
  const opened = await openSqliteStore(join(folderFor("log"), "log.sqlite"));
  if (opened.kind !== "opened") throw new Error(`no store: ${opened.reason}`);
  const { store } = opened;
  ends.push(() => store.close());
  const site = readSite([
    { prefix: "/", folder: app },
    { prefix: "/demonstration/", folder: inputs },
  ]);
  const handle = createApp({
    calculations,
    compute,
    store,
    site,
    report: (events, units) =>
      renderReport(events, { generatedAt: new Date().toISOString(), units, program: "0.0.0" }),
    onFault: (error, request) => {
      throw new Error(`fault in ${request}`, { cause: error });
    },
  });
  const server = await listen(around(handle), { port: 0, exact: true });
  if (server.kind !== "listening") throw new Error(`no server: ${server.reason}`);
  ends.push(() => server.stop());
  return server.url;
}

/** The source of axe, to be run inside a page. */
export const axeSource = readFileSync(join(root, "node_modules/axe-core/axe.min.js"), "utf8");
