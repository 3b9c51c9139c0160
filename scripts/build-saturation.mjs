// Builds data/saturation/*.json from the equations in data/fluids: `node scripts/build-saturation.mjs [id …]`.
// Prints, per fluid, the number of intervals and the largest differences from the equation.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { runnerImport } from "vite";

const root = new URL("..", import.meta.url).pathname;
const load = async (path) => (await runnerImport(root + path, { root, logLevel: "error" })).module;
const { parseFluidFile } = await load("src/fluids/fluid-file.ts");
const { buildSaturation } = await load("src/fluids/saturation-build.ts");
const { saturationFileText } = await load("src/fluids/saturation-file.ts");

const wanted = process.argv.slice(2);
for (const name of readdirSync(`${root}data/fluids`).sort()) {
  if (!name.endsWith(".json")) continue;
  const stem = name.replace(".json", "");
  if (wanted.length > 0 && !wanted.includes(stem)) continue;
  const file = parseFluidFile(JSON.parse(readFileSync(`${root}data/fluids/${name}`, "utf8")));
  const built = buildSaturation(file);
  const text = saturationFileText(file.id, built, "scripts/build-saturation.mjs");
  writeFileSync(`${root}data/saturation/${name}`, text);
  const intervals = [built.states, built.temperature].map((part) => part.breaks.length - 1);
  const show = ({ p, rhoL, rhoV, T }) =>
    [p, rhoL, rhoV, T].map((x) => x.toExponential(1)).join(" ");
  console.log(
    stem,
    intervals.join("+"),
    `${(text.length / 1000).toFixed(1)} kB`,
    show(built.differences),
    "| nearer:",
    show(built.nearCritical),
  );
}
