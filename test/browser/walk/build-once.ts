import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import type { TestProject } from "vitest/node";
import { builtApp } from "../../../scripts/build.mjs";
import { root } from "../../kill/bundle.ts";

declare module "vitest" {
  interface ProvidedContext {
    /** The folder of the app as it is shipped. */
    app: string;
  }
}

/** The app as it is shipped, once for all files of tests: the one that set-up built, or one of the sources as they are now. */
export default async function setup({ provide }: TestProject): Promise<() => void> {
  const built = builtApp();
  if (built !== undefined) {
    provide("app", built);
    return () => undefined;
  }
  const outDir = mkdtempSync(join(tmpdir(), "coldproof-app-"));
  await build({
    root: join(root, "src/web"),
    configFile: join(root, "src/web/vite.config.ts"),
    logLevel: "error",
    build: { outDir, emptyOutDir: true },
  });
  provide("app", outDir);
  return () => {
    rmSync(outDir, { recursive: true });
  };
}
