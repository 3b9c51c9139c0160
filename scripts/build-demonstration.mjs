// Writes data/demonstration/hill-town.json from the notes in src/trial/demonstration and the logger
// files beside it. Run after changing either; a test compares the file with the notes.
import { readFileSync, writeFileSync } from "node:fs";
import { createServer } from "vite";

const folder = new URL("../data/demonstration/", import.meta.url);
const text = (name) => readFileSync(new URL(name, folder), "utf8");

const vite = await createServer({
  configFile: false,
  appType: "custom",
  logLevel: "warn",
  server: { middlewareMode: true, ws: false },
});
try {
  const { hillTown } = await vite.ssrLoadModule("/src/trial/demonstration/hill-town.ts");
  const { exportTrial } = await vite.ssrLoadModule("/src/trial/export.ts");
  const events = hillTown({
    baseline: text("hill-town-baseline-us.csv"),
    productB: text("hill-town-product-b-si.csv"),
    hold: text("hill-town-hold.csv"),
  });
  writeFileSync(
    new URL("hill-town.json", folder),
    `${JSON.stringify(exportTrial(events), null, 1)}\n`,
  );
} finally {
  await vite.close();
}
