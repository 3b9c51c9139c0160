import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { afterAll, expect, test } from "vitest";
import { get, memoryServer } from "../../test/doors/memory-server.ts";
import { readSite } from "./index.ts";

const folder = mkdtempSync(join(tmpdir(), "coldproof-site-"));
mkdirSync(join(folder, "web/assets"), { recursive: true });
mkdirSync(join(folder, "shown"));
writeFileSync(join(folder, "web/index.html"), "<!doctype html><title>app</title>");
writeFileSync(join(folder, "web/assets/main-a1B2c3D4.js"), "export {};");
writeFileSync(join(folder, "shown/hill-town.json"), "{}");
writeFileSync(join(folder, "secret.txt"), "not served");
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const site = readSite([
  { prefix: "/", folder: join(folder, "web") },
  { prefix: "/demonstration/", folder: join(folder, "shown") },
  { prefix: "/none/", folder: join(folder, "none") },
]);

test("serves the app, its assets and the demonstration with their types", async () => {
  const { handle } = await memoryServer({ site });
  const page = await handle(get("/"));
  expect(await page.text()).toContain("app");
  expect(page.headers.get("content-type")).toBe("text/html; charset=utf-8");
  expect(page.headers.get("cache-control")).toBe("no-cache");
  const script = await handle(get("/assets/main-a1B2c3D4.js"));
  expect(script.headers.get("content-type")).toMatch(/^text\/javascript/);
  expect(script.headers.get("cache-control")).toContain("immutable");
  const shown = await handle(get("/demonstration/hill-town.json"));
  expect(shown.headers.get("content-type")).toBe("application/json");
});

test("a place within the app gets its page; a missing file does not", async () => {
  const { handle } = await memoryServer({ site });
  expect(await (await handle(get("/trial/some-place"))).text()).toContain("app");
  expect((await handle(get("/assets/gone-00000000.js"))).status).toBe(404);
});

test("no path leads out of its folders", async () => {
  const { handle } = await memoryServer({ site });
  for (const path of ["/../secret.txt", "/..%2fsecret.txt", "/assets/..%5c..%5csecret.txt"]) {
    const response = await handle(get(path));
    expect(await response.text()).not.toContain("not served");
  }
});

test("an unchanged file is not sent twice", async () => {
  const { handle } = await memoryServer({ site });
  const tag = (await handle(get("/"))).headers.get("etag") ?? "";
  const again = await handle(get("/", { "if-none-match": tag }));
  expect([again.status, await again.text()]).toEqual([304, ""]);
});

test("texts go packed to who takes them so, and unpacked to others", async () => {
  const { handle } = await memoryServer({ site });
  const path = "/assets/main-a1B2c3D4.js";
  const packed = await handle(get(path, { "accept-encoding": "gzip, br" }));
  expect(packed.headers.get("content-encoding")).toBe("gzip");
  expect(gunzipSync(await packed.arrayBuffer()).toString()).toBe("export {};");
  const plain = await handle(get(path));
  expect(plain.headers.get("content-encoding")).toBeNull();
  expect(await plain.text()).toBe("export {};");
});
