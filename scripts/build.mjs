// Builds dist: the app (dist/web), the command with its server (dist/coldproof.mjs), and the thread on which the
// server works out what takes long (dist/aside.mjs).
import { existsSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { hashOf, root, stamp, writeStamp } from "./steps/checkout.mjs";
import { SetUpError, isMain, runScript, say } from "./steps/run.mjs";

const inputs = ["src", "data", "public", "scripts/build.mjs", "package-lock.json"];
const isTest = (path) => /\.(test|bench)\.tsx?$/.test(path);
const at = (path) => join(root, path);

const sources = () => hashOf(inputs, { keep: (path) => !isTest(path), salt: process.version });
const isBuilt = (wanted) => existsSync(at("dist/coldproof.mjs")) && stamp("build") === wanted;

/** Folder of the app as it was last built; undefined when a source changed since. */
export const builtApp = () => (isBuilt(sources()) ? at("dist/web") : undefined);

/** Builds when a source, a data file or a build tool changed since the last time. */
export async function buildIfChanged() {
  const wanted = sources();
  if (isBuilt(wanted)) return;
  say("building");
  await build();
  writeStamp("build", wanted);
}

/** Builds beside and swaps at the end: a failed build leaves the last good one. */
async function build() {
  const { build: viteBuild } = await import("vite");
  const next = at("dist.next");
  rmSync(next, { recursive: true, force: true });
  try {
    await viteBuild(appConfig(join(next, "web")));
    for (const entry of ["coldproof", "aside"]) await viteBuild(nodeConfig(entry, next));
  } catch (error) {
    throw new SetUpError(`the build failed:\n${error.message}`, { cause: error });
  }
  rmSync(at("dist.old"), { recursive: true, force: true });
  if (existsSync(at("dist"))) renameSync(at("dist"), at("dist.old"));
  renameSync(next, at("dist"));
  rmSync(at("dist.old"), { recursive: true, force: true });
}

/** The app reads its own configuration: it brings the service worker that lists what was built. */
function appConfig(outDir) {
  return {
    root: at("src/web"),
    logLevel: "warn",
    build: { outDir, emptyOutDir: true },
  };
}

/** One file for Node with everything but the databases: a binary must stay a file, PostgreSQL loads when named. */
function nodeConfig(entry, outDir) {
  return {
    root,
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
    ssr: { noExternal: true, external: ["better-sqlite3", "pg"] },
    build: {
      ssr: `src/${entry}.ts`,
      outDir,
      emptyOutDir: false,
      target: "node20",
      minify: false,
      rolldownOptions: { output: { entryFileNames: `${entry}.mjs`, codeSplitting: false } },
    },
  };
}

if (isMain(import.meta.url)) {
  await runScript(async () => {
    await build();
  });
}
