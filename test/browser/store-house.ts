import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { listen, readSite } from "../../src/server/index.ts";
import { memoryServer } from "../doors/memory-server.ts";
import { root } from "../kill/bundle.ts";

/** A page that runs one file over the device's store, on a server with an empty log in memory. */
export async function storeHouse(entry: string) {
  const folder = mkdtempSync(join(tmpdir(), "coldproof-page-"));
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: { outDir: folder, lib: { entry, formats: ["es"], fileName: () => "page.js" } },
  });
  writeFileSync(
    join(folder, "index.html"),
    '<!doctype html><meta charset="utf-8"><script type="module" src="/page.js"></script>',
  );
  const { handle } = await memoryServer({ site: readSite([{ prefix: "/", folder }]) });
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind === "refused") throw new Error(server.reason);
  const end = async () => {
    await server.stop();
    rmSync(folder, { recursive: true });
  };
  return { url: server.url, end };
}
