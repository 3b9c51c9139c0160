// Builds data/contents/boiling.json, the boiling tables of the families that `identify` knows, from the equations in
// data/fluids and data/mixtures: `node scripts/build-boiling.mjs`. A test holds the file against them.
import { mkdirSync, writeFileSync } from "node:fs";
import { runnerImport } from "vite";

const root = new URL("..", import.meta.url).pathname;
const load = async (path) => (await runnerImport(root + path, { root, logLevel: "error" })).module;
const { families } = await load("src/evidence/contents/families.ts");
const { solveTables } = await load("src/evidence/contents/boiling-tables.ts");

const tables = families
  .filter(({ fluids }) => fluids.length > 1)
  .map((family) => {
    const rows = solveTables(family).map((table) => `      ${JSON.stringify([...table])}`);
    return `    ${JSON.stringify(family.id)}: [\n${rows.join(",\n")}\n    ]`;
  });
const about =
  "Coefficients by family and temperature (236, 263, 294, 327 K): ln of y p/x in Pa of each part, -ln of the liquid's density in mol/m3, ln of the vapour's compressibility, each a cubic in mole fractions or one number where the composition is fixed.";
const source =
  "Computed by scripts/build-boiling.mjs from data/fluids, data/mixtures and data/facts";
mkdirSync(`${root}data/contents`, { recursive: true });
writeFileSync(
  `${root}data/contents/boiling.json`,
  `{\n  "schema": 1,\n  "about": ${JSON.stringify(about)},\n  "source": ${JSON.stringify(source)},\n  "tables": {\n${tables.join(",\n")}\n  }\n}\n`,
);
console.log(`${tables.length} families`);
