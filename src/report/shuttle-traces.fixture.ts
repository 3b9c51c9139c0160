import type { Series, TraceView } from "../trial/index.ts";
import { air, at, C, ids, psi } from "./shuttle-basics.fixture.ts";

/** The traces of the invented trial for the tests: computed from plain curves, nothing was measured. */

const noise = (i: number): number => Math.sin(i * 12.9898) * Math.cos(i * 78.233);
const seconds = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => (i < 500 ? i : i + 45));
const line = (from: number, end: number, tau: number, size: number): Float64Array =>
  Float64Array.from({ length: 1600 }, (_, i) => {
    const road = i > 820 ? (end - from) * 0.04 : 0;
    return end + road + (from - end) * Math.exp(-i / tau) + size * noise(i);
  });
const series = (
  column: string,
  quantity: Series["quantity"],
  unit: string,
  values: Float64Array,
): Series => ({ column, quantity, unit, instrument: ids.thermometer, t: seconds(1600), values });

export const trace: TraceView = {
  id: ids.trace,
  fileName: "shuttle-baseline.csv",
  kind: "run",
  stage: "prove",
  when: at(30),
  start: "2026-06-14T09:30:00",
  clock: "file",
  rows: { read: 1612, kept: 1600 },
  series: [
    series("LP", "low-side", "psig", line(69 * psi + air, 31 * psi + air, 90, 3000)),
    series("HP", "high-side", "psig", line(70 * psi + air, 134 * psi + air, 70, 9000)),
    series("Vent", "vent-temperature", "°F", line(24 + C, 7.1 + C, 200, 0.15)),
    series("Return", "return-air-temperature", "°F", line(27 + C, 24.2 + C, 300, 0.1)),
    series("Outside", "outside-temperature", "°F", line(25.8 + C, 26.1 + C, 400, 0.08)),
  ],
  problems: [
    {
      line: 212,
      raw: "OL",
      column: "HP",
      kind: "over-range",
      keptRest: true,
      sentence: "Line 212: HP reads OL, over the range of the instrument.",
    },
    {
      line: 503,
      raw: "09:38:20 → 09:39:05",
      kind: "gap-in-time",
      keptRest: true,
      sentence: "Line 503: 45 s without a record.",
    },
    {
      line: 1201,
      raw: "2026-06-14 09:51,31.2,13",
      kind: "short-row",
      keptRest: false,
      sentence: "Line 1201: the row ends after three cells.",
    },
  ],
  proposals: [
    {
      condition: "parked-idle",
      fromSeconds: 0,
      toSeconds: 800,
      from: "2026-06-14T09:30:00",
      to: "2026-06-14T09:43:20",
      gaps: 1,
      why: "no speed",
    },
  ],
};

export const hold: TraceView = {
  id: ids.hold,
  fileName: "shuttle-hold.csv",
  start: "1970-01-01T00:00:00",
  clock: "elapsed",
  kind: "hold",
  stage: "evacuate",
  round: ids.product,
  when: at(10, 15),
  rows: { read: 41, kept: 41 },
  series: [
    {
      column: "micron",
      quantity: "vacuum",
      unit: "micron",
      instrument: ids.vacuumGauge,
      t: Float64Array.from({ length: 41 }, (_, i) => i * 30),
      values: Float64Array.from({ length: 41 }, (_, i) => 6 + 8 * (1 - Math.exp(-i / 12))),
    },
  ],
  problems: [],
  proposals: [],
};
