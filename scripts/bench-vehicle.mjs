// Prints milliseconds of the vehicle model: building a property pack, solving cold and warm, the worst.
//
// Called by bench.mjs with the bundled room and the survey of its tests: random vehicles, fluids, charges,
// faults and weathers. "Cold" begins from guesses, "warm" from the solution half a kelvin away.
import { performance } from "node:perf_hooks";

const compositions = [
  { name: "R134a", ids: ["R134a"], fractions: [1], wanted: 200 },
  { name: "R1234yf", ids: ["R1234yf"], fractions: [1], wanted: 200 },
  { name: "R290", ids: ["R290"], fractions: [1], wanted: 200 },
  { name: "R290/R600a", ids: ["R290", "R600a"], fractions: [0.6, 0.4], wanted: 400 },
  { name: "R134a/R1234yf", ids: ["R134a", "R1234yf"], fractions: [0.5, 0.5], wanted: 400 },
];
const repeats = 5;
const cases = 4000;
const limits = { cold: 1, warm: 0.3, worst: 250 };

/** Prints the rows of the vehicle. */
export function benchVehicle({ buildPack, bandOf, presetVehicle, runVehicle, sound }, survey) {
  console.log("\nMilliseconds of the vehicle model; in brackets what is wanted.");
  for (const { name, wanted, ...composition } of compositions) {
    const times = Array.from({ length: repeats }, () => timed(() => buildPack(composition)));
    row(`property pack of ${name}`, survey.quantile(times, 0.5), wanted);
  }
  const found = survey.survey(21, cases);
  row("cold solve, median", survey.quantile(found.cold, 0.5), limits.cold);
  row("cold solve, 99 of 100", survey.quantile(found.cold, 0.99));
  row("warm solve, median", survey.quantile(found.warm, 0.5), limits.warm);
  row("worst of all cases", survey.quantile(found.all, 1), limits.worst);
  console.log(`of ${cases} cases unresolved: ${found.unresolved} (at most ${cases / 1000})`);
  const request = {
    vehicle: presetVehicle("large-orifice"),
    conditions: {
      ...{ ambient: 305, humidity: 0.45, pAir: 101325, speed: 0, engineSpeed: 12, blower: 1 },
      ...{ recirculation: 1, returnAir: { kind: "pull-down", share: 0.45 }, occupants: 1 },
    },
    faults: sound,
    fill: { composition: { ids: ["R134a"], fractions: [1] }, charge: 1.36, air: 0 },
  };
  const nominal = runVehicle(request);
  const bands = Array.from({ length: repeats }, () => timed(() => bandOf(request, nominal)));
  row("band from all parameters", survey.quantile(bands, 0.5));
}

function timed(call) {
  const start = performance.now();
  call();
  return performance.now() - start;
}

function row(label, value, wanted) {
  const beside = wanted === undefined ? "" : ` (${wanted})`;
  console.log(label.padEnd(36) + value.toFixed(value < 10 ? 3 : 0) + beside);
}
