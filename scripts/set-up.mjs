// Makes a fresh checkout ready: packages, SQLite, the built app and, with --test, a browser and PostgreSQL.
// Needs nothing but Node; does only what is missing or changed.
import { isMain, runScript } from "./steps/run.mjs";

const oldest = [20, 19];

/** Stops with a sentence instead of the syntax error that an old Node would show later. */
function checkNode() {
  const [major, minor] = process.versions.node.split(".").map(Number);
  if (major > oldest[0] || (major === oldest[0] && minor >= oldest[1])) return;
  console.error(
    `coldproof: Node ${oldest.join(".")} or newer is needed; this is ${process.version}. Install a newer one (nodejs.org), then try again.`,
  );
  process.exit(1);
}

/**
 * @param test also prepares what only the tests need.
 * @throws SetUpError whose message tells what to do.
 */
export async function setUp({ test = false } = {}) {
  checkNode();
  const { withLock } = await import("./steps/lock.mjs");
  await withLock(async () => {
    const { installPackages } = await import("./steps/packages.mjs");
    await installPackages();
    const { prepareSqlite } = await import("./steps/native.mjs");
    await prepareSqlite();
    if (test) {
      const { prepareBrowser } = await import("./steps/browser.mjs");
      await prepareBrowser();
      const { preparePostgres } = await import("./steps/postgres.mjs");
      await preparePostgres();
    }
    const { buildIfChanged } = await import("./build.mjs");
    await buildIfChanged();
  });
}

if (isMain(import.meta.url)) {
  await runScript(() => setUp({ test: process.argv.includes("--test") }));
}
