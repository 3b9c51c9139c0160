// Prints microseconds per call of the fluid engine beside those of a native library: `node scripts/bench.mjs`.
//
// The sources are bundled first, as they are for a release. Every row cycles through 256 states drawn
// from a fixed sequence, is warmed up, and shows the median of several batches; results are summed so
// that nothing is optimised away. The native figures were measured with CoolProp 8.0.1dev (commit
// ea27c639, -O3, one core, low-level interface) on a machine of the same kind; a ratio above 1 means
// that this engine is faster.
import { mkdtempSync, rmSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "vite";
import { benchBlends } from "./bench-blends.mjs";
import { benchComparison } from "./bench-comparison.mjs";
import { benchOpening, benchTrial } from "./bench-trial.mjs";
import { benchVehicle } from "./bench-vehicle.mjs";

const root = new URL("..", import.meta.url).pathname;
// Inside the checkout: the native part of SQLite is found from there.
const outDir = mkdtempSync(join(root, ".stamps/bench-"));
const entry = (room) => join(root, "src", room, "index.ts");
await build({
  root,
  configFile: false,
  logLevel: "error",
  ssr: { noExternal: true, external: ["better-sqlite3", "pg"] },
  build: {
    ssr: true,
    outDir,
    emptyOutDir: true,
    rolldownOptions: {
      input: {
        fluids: entry("fluids"),
        numerics: entry("numerics"),
        store: entry("store"),
        trial: entry("trial"),
        vehicle: entry("vehicle"),
        survey: join(root, "test", "vehicle", "survey.ts"),
      },
    },
  },
});
const load = (room) => import(pathToFileURL(join(outDir, `${room}.js`)).href);
const fluids = await load("fluids");
const { createRandom } = await load("numerics");
const trial = await load("trial");
const vehicle = await load("vehicle");
const survey = await load("survey");
const store = await load("store");
rmSync(outDir, { recursive: true });

/** Microseconds of the native library: R134a, R1234yf, R290. */
const native = {
  "saturation from T": [0.22, 0.23, 0.23],
  "saturation from p": [0.26, 0.27, 0.27],
  "T, rho -> p, h, s, cp, w": [1.26, 1.04, 1.12],
  "T, p vapour": [3.9, 3.5, 3.7],
  "p, h two-phase": [1.7, 1.5, 1.6],
  "p, h vapour": [27, 23, 33],
  "p, h liquid": [25, 22, 24],
  "p, s vapour": [26, 22, 28],
  // Not in the native table: shown because they are where a flash is slowest.
  "T, p liquid": [],
  "p, s liquid": [],
  "p, h above the critical pressure": [],
  "p, h within 0.5 % of Tc": [],
};

const names = ["R134a", "R1234yf", "R290"];
const count = 256;
const results = names.map((name) => measure(fluids.fluid(name)));
const pad = (text, width) => String(text).padEnd(width);
const width = Math.max(...Object.keys(native).map((label) => label.length)) + 2;
console.log(
  `Microseconds per call on Node ${process.version}; in brackets the native figure and the ratio.`,
);
console.log(pad("call", width) + names.map((name) => pad(name, 26)).join(""));
for (const [label, figures] of Object.entries(native)) {
  const cells = results.map((result, k) => {
    const here = result[label];
    const there = figures[k];
    const beside = there === undefined ? "" : ` (${there}, x${(there / here).toFixed(1)})`;
    return pad(here.toFixed(3) + beside, 26);
  });
  console.log(pad(label, width) + cells.join(""));
}
benchBlends(fluids, createRandom, time);
benchVehicle(vehicle, survey);
benchTrial(trial);
await benchOpening(store, trial);
await benchComparison(trial);

function measure(fluid) {
  const random = createRandom(20);
  const { Tmin, Tmax } = fluid.info;
  const { T: Tc, p: pc } = fluid.critical;
  const between = (from, to) => from + (to - from) * random();
  const many = (make) => Array.from({ length: count }, make);
  const state = (outcome) => {
    if (outcome.kind !== "state") throw new Error(JSON.stringify(outcome));
    return outcome;
  };
  const low = Math.max(Tmin, 230);
  const TSat = many(() => between(low, 0.98 * Tc));
  const saturated = TSat.map((T) => fluids.saturationAtT(fluid, T));
  const vapour = saturated.map(({ T, p }) =>
    state(fluids.stateTP(fluid, Math.min(Tmax, T * between(1.01, 1.25)), p)),
  );
  const liquid = saturated.map(({ T, p }) =>
    state(fluids.stateTP(fluid, Math.max(Tmin, T * between(0.8, 0.99)), p)),
  );
  const wet = saturated.map(({ T }) => state(fluids.stateTQ(fluid, T, random())));
  const dense = many(() => state(fluids.stateTP(fluid, between(low, Tmax), pc * between(1.05, 4))));
  const near = many(() =>
    state(fluids.stateTP(fluid, Tc * between(0.995, 1.005), pc * between(0.97, 1.03))),
  );
  const { saturationAtT, saturationAtP, stateTRho, stateTP, statePH, statePS } = fluids;
  return {
    "saturation from T": time(saturated, (s) => saturationAtT(fluid, s.T).rhoV),
    "saturation from p": time(saturated, (s) => saturationAtP(fluid, s.p).rhoV),
    "T, rho -> p, h, s, cp, w": time(vapour, (s) => stateTRho(fluid, s.T, s.rho).w),
    "T, p vapour": time(vapour, (s) => stateTP(fluid, s.T, s.p).rho),
    "T, p liquid": time(liquid, (s) => stateTP(fluid, s.T, s.p).rho),
    "p, h two-phase": time(wet, (s) => statePH(fluid, s.p, s.h).q),
    "p, h vapour": time(vapour, (s) => statePH(fluid, s.p, s.h).T),
    "p, h liquid": time(liquid, (s) => statePH(fluid, s.p, s.h).T),
    "p, s vapour": time(vapour, (s) => statePS(fluid, s.p, s.s).T),
    "p, s liquid": time(liquid, (s) => statePS(fluid, s.p, s.s).T),
    "p, h above the critical pressure": time(dense, (s) => statePH(fluid, s.p, s.h).T),
    "p, h within 0.5 % of Tc": time(near, (s) => statePH(fluid, s.p, s.h).T),
  };
}

/** Median microseconds per call over batches, after a warm-up. */
function time(states, call) {
  const rounds = 40;
  const batches = 15;
  let sink = 0;
  const run = (times) => {
    const start = performance.now();
    for (let round = 0; round < times; round++) for (const state of states) sink += call(state);
    return ((performance.now() - start) * 1000) / (times * states.length);
  };
  run(rounds * 3);
  const found = Array.from({ length: batches }, () => run(rounds)).sort((a, b) => a - b);
  if (!Number.isFinite(sink)) throw new Error("a call gave no number");
  return found[Math.floor(batches / 2)];
}
