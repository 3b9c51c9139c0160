import type { BodyOf, TrialEvent } from "../events.ts";
import {
  celsius,
  column,
  g,
  kg,
  micron,
  millilitres,
  percent,
  psig,
  r134a,
  read,
} from "./hill-town-entries.ts";
import { plan, type Things } from "./hill-town-plan.ts";
import { InventedLog } from "./log.ts";

/** The logger files of the invented trial, as they came. */
export interface HillTownFiles {
  readonly baseline: string;
  readonly productB: string;
  readonly hold: string;
}

/**
 * A whole invented trial: a nine-seat shuttle in a hill-town garage, and product B against R134a.
 * People, places and products are made up; figures were simulated with noise.
 */
export function hillTown(files: HillTownFiles): readonly TrialEvent[] {
  const log = new InventedLog("2026-06-13T15:00:00Z");
  const things = plan(log);
  prove(log, things, files.baseline);
  recover(log, things);
  evacuate(log, things, files.hold);
  charge(log, things);
  run(log, things, files.productB);
  restore(log, things);
  return log.events;
}

function prove(log: InventedLog, things: Things, content: string): void {
  const stage = "prove";
  const soaked = "2026-06-14T06:20:00Z";
  read(log, soaked, { stage }, "static-low", psig(69), things.lowGauge);
  read(log, soaked, { stage }, "static-high", psig(70), things.highGauge);
  read(log, soaked, { stage }, "metal-temperature", celsius(20.1), things.thermometer);
  const at = "2026-06-14T07:20:00Z";
  const trace = log.add(at, "trace-imported", {
    stage,
    fileName: "hill-town-baseline-us.csv",
    kind: "run",
    content,
    mapping: {
      decimal: ".",
      time: { column: "time", form: "iso" },
      columns: [
        column("low side psig", "low-side", "psig", things.lowGauge),
        column("high side psig", "high-side", "psig", things.highGauge),
        column("vent F", "vent-temperature", "°F", things.thermometer),
        column("outside F", "outside-temperature", "°F", things.thermometer),
        column("speed mph", "vehicle-speed", "mph"),
        column("engine rpm", "engine-speed", "rpm"),
      ],
    },
  });
  const plain = {
    stage,
    airSource: "recirculation",
    blower: "high",
    charged: r134a,
    trace,
  } as const;
  const runs = [
    log.add(at, "run-recorded", {
      ...plain,
      name: "Label refrigerant, parked",
      condition: "parked-idle",
      from: "2026-06-14T08:41:00",
      to: "2026-06-14T08:53:59",
    }),
    log.add(at, "run-recorded", {
      ...plain,
      name: "Label refrigerant, road",
      condition: "road-steady",
      from: "2026-06-14T08:54:05",
      to: "2026-06-14T09:04:59",
    }),
  ];
  for (const run of runs) {
    read(log, at, { stage, run }, "return-air-humidity", percent(50), things.hygrometer);
  }
}

function recover(log: InventedLog, { product: round, r1, scale, lowGauge }: Things): void {
  const where = { stage: "recover", round } as const;
  const at = "2026-06-14T08:30:00Z";
  log.add(at, "transfer-posted", {
    ...where,
    from: "vehicle",
    to: r1,
    destinationWeighing: { before: kg(8.96), after: kg(9.548), instrument: scale },
  });
  read(log, at, where, "low-side", { value: -0.31, unit: "bar(g)" }, lowGauge);
  read(log, at, where, "oil-drained", millilitres(12));
}

function evacuate(log: InventedLog, things: Things, content: string): void {
  const where = { stage: "evacuate", round: things.product } as const;
  const first = "2026-06-14T09:20:00Z";
  read(log, first, where, "pump-time", { value: 40, unit: "min" });
  read(log, first, where, "vacuum", micron(380), things.vacuumGauge);
  read(log, "2026-06-14T09:25:00Z", where, "vacuum", micron(5000), things.vacuumGauge);
  log.add("2026-06-14T09:40:00Z", "note-written", {
    ...where,
    text: "The hold rose from 380 to 5,000 micron in five minutes: leak at the high-side service valve core. Core replaced, evacuated again.",
  });
  const second = "2026-06-14T11:10:00Z";
  read(log, second, where, "shop-temperature", celsius(24), things.thermometer);
  log.add(second, "trace-imported", {
    ...where,
    fileName: "hill-town-hold.csv",
    kind: "hold",
    content,
    mapping: {
      decimal: ".",
      time: { column: "minute", form: "elapsed", unit: "min" },
      columns: [column("micron", "vacuum", "micron", things.vacuumGauge)],
    },
  });
  log.add("2026-06-14T11:15:00Z", "vessel-found-empty", {
    ...where,
    vessel: "vehicle",
    evidence: "Second evacuation: 405 micron, 1,705 micron after 30 minutes and levelling.",
  });
}

function charge(log: InventedLog, { product: round, scale, can1, can2 }: Things): void {
  const where = { stage: "charge", round } as const;
  read(log, "2026-06-15T09:30:00Z", where, "oil-returned", millilitres(12));
  const before = "2026-06-15T09:40:00Z";
  read(log, before, { ...where, vessel: can1 }, "gross-mass", g(318), scale);
  read(log, before, { ...where, vessel: can2 }, "gross-mass", g(317), scale);
  const transfer = (after: number): BodyOf<"transfer-posted"> => ({
    ...where,
    from: can1,
    to: "vehicle",
    sourceWeighing: { before: g(318), after: g(after), instrument: scale },
    purged: { mass: g(3), limit: g(2) },
    phase: "liquid",
    note: "Compressor running, low side throttled.",
    when: "2026-06-15T10:10:00Z",
  });
  const mistyped = log.add("2026-06-15T10:12:00Z", "transfer-posted", transfer(140));
  log.add("2026-06-15T10:20:00Z", "entry-corrected", {
    target: mistyped,
    body: { ...transfer(104) },
    reason: "Mistyped: the emptied can weighs 104 g, not 140 g.",
  });
  const emptied = "2026-06-15T10:30:00Z";
  read(log, emptied, { ...where, vessel: can1 }, "can-volume", millilitres(455));
  log.add(emptied, "vessel-found-empty", {
    ...where,
    vessel: can1,
    evidence: "Nothing flows any more; filled with water afterwards to measure its volume.",
  });
}

function run(log: InventedLog, things: Things, content: string): void {
  const { product: round } = things;
  const where = { stage: "run", round } as const;
  const at = "2026-06-15T11:45:00Z";
  const trace = log.add(at, "trace-imported", {
    ...where,
    fileName: "hill-town-product-b-si.csv",
    kind: "run",
    content,
    mapping: {
      decimal: ",",
      time: { column: "Zeit", form: "day-first" },
      columns: [
        column("ND kPa", "low-side", "kPa(g)", things.lowGauge),
        column("HD kPa", "high-side", "kPa(g)", things.highGauge),
        column("Luftaustritt °C", "vent-temperature", "°C", things.thermometer),
        column("Außen °C", "outside-temperature", "°C", things.thermometer),
        column("km/h", "vehicle-speed", "km/h"),
      ],
    },
  });
  const plain = {
    ...where,
    airSource: "recirculation",
    blower: "high",
    charged: { kind: "product", product: round },
    trace,
  } as const;
  log.add(at, "run-recorded", {
    ...plain,
    name: "Product B, parked",
    condition: "parked-idle",
    from: "2026-06-15T13:05:00",
    to: "2026-06-15T13:18:59",
  });
  log.add(at, "run-recorded", {
    ...plain,
    name: "Product B, road",
    condition: "road-steady",
    from: "2026-06-15T13:19:08",
    to: "2026-06-15T13:30:59",
  });
  const soaked = "2026-06-16T05:40:00Z";
  read(log, soaked, where, "static-low", psig(70), things.lowGauge);
  read(log, soaked, where, "metal-temperature", celsius(18), things.thermometer);
}

function restore(log: InventedLog, things: Things): void {
  const where = { stage: "restore" } as const;
  log.add("2026-06-16T07:30:00Z", "transfer-posted", {
    ...where,
    from: "vehicle",
    to: things.x7,
    destinationWeighing: { before: kg(6.41), after: kg(6.618), instrument: things.scale },
  });
  log.add("2026-06-16T09:00:00Z", "vessel-found-empty", {
    ...where,
    vessel: "vehicle",
    evidence: "Evacuated again, vacuum held.",
  });
  log.add("2026-06-16T09:40:00Z", "transfer-posted", {
    ...where,
    from: things.r1,
    to: "vehicle",
    sourceWeighing: { before: kg(9.548), after: kg(8.925), instrument: things.scale },
    phase: "liquid",
    note: "Aimed at 0.620 kg.",
  });
  typedRun(log, things, "parked-idle", "Label refrigerant again, parked", [31, 134, 45.1]);
  typedRun(log, things, "road-steady", "Label refrigerant again, road", [30, 106, 43.9]);
  log.add("2026-06-16T14:00:00Z", "item-confirmed", {
    ...where,
    item: "label-true",
    confirmed: true,
  });
}

/** @param figures  Low side and high side in psig, vent in °F, as they were written down. */
function typedRun(
  log: InventedLog,
  things: Things,
  condition: "parked-idle" | "road-steady",
  name: string,
  [low, high, vent]: readonly [number, number, number],
): void {
  const stage = "restore";
  const at = condition === "parked-idle" ? "2026-06-16T12:30:00Z" : "2026-06-16T12:50:00Z";
  const run = log.add(at, "run-recorded", {
    stage,
    name,
    condition,
    airSource: "recirculation",
    blower: "high",
    charged: r134a,
  });
  const where = { stage, run } as const;
  read(log, at, where, "low-side", psig(low), things.lowGauge);
  read(log, at, where, "high-side", psig(high), things.highGauge);
  read(log, at, where, "vent-temperature", { value: vent, unit: "°F" }, things.thermometer);
  if (condition === "road-steady") {
    read(log, at, where, "vehicle-speed", { value: 40, unit: "mph" });
    return;
  }
  read(log, at, where, "outside-temperature", celsius(26), things.thermometer);
  read(log, at, where, "return-air-humidity", percent(46), things.hygrometer);
}
