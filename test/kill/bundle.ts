import { rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";

/** The checkout. */
export const root = fileURLToPath(new URL("../../", import.meta.url));

/**
 * Builds a TypeScript entry for Node 20, which cannot run one by itself, into one file within the
 * checkout, so that it finds SQLite's binary.
 */
export async function bundleForNode(entry: string, name: string) {
  const folder = join(root, ".stamps", `${name}-${process.pid}`);
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: "error",
    ssr: { noExternal: true, external: ["better-sqlite3", "pg"] },
    build: {
      ssr: entry,
      outDir: folder,
      target: "node20",
      rolldownOptions: { output: { entryFileNames: "entry.mjs", codeSplitting: false } },
    },
  });
  const remove = () => {
    rmSync(folder, { recursive: true, force: true });
  };
  return { file: join(folder, "entry.mjs"), remove };
}
