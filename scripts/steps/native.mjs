// SQLite's binary for this Node: kept from last time, downloaded, or compiled.
import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { cacheFolder, replaceFile, root } from "./checkout.mjs";
import { SetUpError, npm, run, say, which } from "./run.mjs";
import { aptInstall, tail } from "./system.mjs";

const folder = join(root, "node_modules/better-sqlite3");
const binary = join(folder, "build/Release/better_sqlite3.node");

/** Leaves a binary that has been loaded once and has answered a query. */
export async function prepareSqlite() {
  if (existsSync(binary) && (await loads())) return;
  const kept = join(cacheFolder, "native", binaryName());
  if (existsSync(kept)) {
    replaceFile(binary, readFileSync(kept));
    if (await loads()) return;
  }
  if (!(await download())) await compile();
  const loaded = await load();
  if (loaded.code !== 0) {
    throw new SetUpError(
      `SQLite was built but does not load in Node ${process.version}:\n${tail(loaded.output)}\nDelete node_modules and .stamps, then try again.`,
    );
  }
  keep(kept);
}

function binaryName() {
  const { version } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const libc =
    process.platform === "linux"
      ? process.report.getReport().header.glibcVersionRuntime
        ? "-glibc"
        : "-musl"
      : "";
  return `better-sqlite3-${version}-abi${process.versions.modules}-${process.platform}-${process.arch}${libc}.node`;
}

/** In a process of its own: a wrong binary may end the process that loads it. */
function load() {
  const program = `const D = require("better-sqlite3"); new D(":memory:").prepare("select 1").get();`;
  return run(process.execPath, ["-e", program]);
}

async function loads() {
  return (await load()).code === 0;
}

/** The package's own prebuilt binary; many networks do not reach it, so it gets half a minute. */
async function download() {
  const tool = join(root, "node_modules/prebuild-install/bin.js");
  if (!existsSync(tool)) return false;
  const done = await run(process.execPath, [tool], { cwd: folder, timeout: 30_000 });
  return done.code === 0 && existsSync(binary) && (await loads());
}

async function compile() {
  const missing = ["g++", "make", "python3"].filter((name) => which(name) === undefined);
  if (missing.length > 0) await aptInstall(missing, "compile SQLite");
  say("compiling SQLite (about a minute, once per machine and Node version)");
  const prefix = dirname(dirname(process.execPath));
  // Node's own headers when it came with them: node-gyp would download them otherwise.
  const own = existsSync(join(prefix, "include/node/node.h"));
  const done = await npm(["rebuild", "better-sqlite3", "--ignore-scripts=false"], {
    env: {
      npm_config_build_from_source: "true",
      ...(own ? { npm_config_nodedir: prefix } : {}),
    },
  });
  if (done.code !== 0 || !existsSync(binary)) {
    throw new SetUpError(
      `SQLite could not be compiled:\n${tail(done.output)}\nA C++20 compiler, make and python3 are needed${own ? "" : ", and Node's headers (include/node/node.h beside Node, or a connection to nodejs.org)"}.`,
    );
  }
}

/** The next checkout need not compile. A cache that cannot be written costs time, nothing else. */
function keep(path) {
  try {
    replaceFile(path, readFileSync(binary));
  } catch (error) {
    say(`could not keep SQLite's binary in ${dirname(path)} (${error.code}); going on without`);
  }
}
