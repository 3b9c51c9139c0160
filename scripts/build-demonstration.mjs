// Writes the invented trials of data/demonstration from the notes in src/trial/demonstration and the
// logger files beside them. Run after changing either; tests compare the files with the notes.
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
  const { harbour } = await vite.ssrLoadModule("/src/trial/demonstration/harbour/harbour.ts");
  const write = (name, log) =>
    writeFileSync(new URL(name, folder), `${JSON.stringify(exportTrial(log), null, 1)}\n`);
  write("hill-town.json", events);
  const log = harbour();
  write("harbour.json", log);
  const { harbourLesson } = await vite.ssrLoadModule("/src/trial/demonstration/harbour/lesson.ts");
  const lesson = `${JSON.stringify(harbourLesson(log), null, 1)}\n`;
  writeFileSync(new URL("lesson.json", folder), lesson);
} finally {
  await vite.close();
}
