import { readdirSync } from "node:fs";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vite";
import { offlineBuild } from "./offline-build.ts";
import { startChunks } from "./start-chunks.ts";

const at = (path: string): string => join(import.meta.dirname, path);

const { version } = JSON.parse(readFileSync(at("../../package.json"), "utf8")) as {
  version: string;
};

/** Entries that the app asks for by name. The worker shares its parts with the page: they are kept once. */
const fixedNames = new Map([
  ["sw", "sw.js"],
  ["compute-worker", "assets/compute-worker.js"],
  ["fair-worker", "assets/fair-worker.js"],
  ["report-worker", "assets/report-worker.js"],
]);

/** The app. `vite build --config src/web/vite.config.ts` writes dist/web. */
export default defineConfig({
  root: import.meta.dirname,
  base: "/",
  publicDir: "public",
  define: { PROGRAM_VERSION: JSON.stringify(version) },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [
    startChunks("index", { compute: ["compute-worker", "fair-worker"], report: ["report-worker"] }),
    offlineBuild(readdirSync(at("public"))),
  ],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    // The page forbids data: addresses, so nothing may be folded into the style sheet.
    assetsInlineLimit: 0,
    // The equations and tables of all fluids come along for the worker: the app computes without a network.
    chunkSizeWarningLimit: 1500,
    rolldownOptions: {
      // A room's door names all of its parts; a screen loads those that it uses, and no others.
      treeshake: { moduleSideEffects: (id) => /\.css$|\/web\/|node_modules/.test(id) },
      input: {
        index: at("index.html"),
        sw: at("service-worker.ts"),
        "compute-worker": at("engine/compute-worker.ts"),
        "fair-worker": at("engine/fair-worker.ts"),
        "report-worker": at("engine/report-worker.ts"),
      },
      output: {
        // On its own, with what must be said to it before it is used (shell/no-eval.ts).
        codeSplitting: {
          groups: [{ name: "zod", test: /node_modules[\\/]zod|shell[\\/]no-eval/, priority: 100 }],
        },
        entryFileNames: ({ name }) => fixedNames.get(name) ?? "assets/[name]-[hash].js",
      },
    },
  },
});
