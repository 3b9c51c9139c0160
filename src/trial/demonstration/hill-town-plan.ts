import { g, kg, percent, psig, r134a } from "./hill-town-entries.ts";
import type { InventedLog } from "./log.ts";

/** Plan: the question, the vehicle, instruments, the product and the vessels; gives their ids. */
export function plan(log: InventedLog) {
  const at = "2026-06-13T15:00:00Z";
  log.add(at, "trial-opened", {
    title: "Nine-seat shuttle: product B against R134a",
    question:
      "Is product B, sold as “equals 680 g of R134a”, as cold as the label refrigerant at the vent within 1 K, parked and at 64 km/h, and what does it add as a hazard?",
    place: "a garage in a hill town",
    altitude: { value: 640, unit: "m" },
    margin: { value: 1, unit: "K" },
    conditions:
      "Parked at idle, then road at 64 km/h; fan full, recirculation, doors and windows shut.",
    demonstration: true,
  });
  log.add(at, "vehicle-described", {
    name: "Nine-seat shuttle",
    labelRefrigerant: "R134a",
    labelCharge: kg(0.62),
    meteringDevice: "expansion-valve",
    compressor: "variable",
    oil: "PAG 46",
    cabinVolume: { value: 4.1, unit: "m3" },
  });
  const tools = instruments(log, at);
  const product = log.add(at, "product-listed", {
    name: "Product B",
    declares: "No composition given; flammable pictogram.",
    labelMass: g(240),
    claims: ["One can of 240 g equals 680 g of R134a."],
    flammableMark: true,
  });
  const vessels = containers(log, at, tools.scale, product);
  for (const item of ["hazards-read", "law-asked"]) {
    log.add("2026-06-13T15:40:00Z", "item-confirmed", { stage: "plan", item, confirmed: true });
  }
  return { ...tools, ...vessels, product };
}

function instruments(log: InventedLog, at: string) {
  const gauge = (name: string, from: number, to: number) =>
    log.add(at, "instrument-listed", {
      name,
      measures: "pressure",
      accuracy: {
        kind: "percent-of-span",
        percent: 1.6,
        from: { value: from, unit: "bar(g)" },
        to: { value: to, unit: "bar(g)" },
      },
    });
  return {
    lowGauge: gauge("Low-side gauge, class 1.6", -1, 10),
    highGauge: gauge("High-side gauge, class 1.6", 0, 35),
    vacuumGauge: log.add(at, "instrument-listed", {
      name: "Thermistor vacuum gauge",
      measures: "vacuum",
      accuracy: { kind: "percent-of-reading", percent: 10 },
    }),
    scale: log.add(at, "instrument-listed", {
      name: "Bench scale",
      measures: "mass",
      accuracy: { kind: "limit", limit: g(5) },
      resolution: g(2),
    }),
    thermometer: log.add(at, "instrument-listed", {
      name: "Type K thermometer, class 1",
      measures: "temperature",
      accuracy: { kind: "limit-or-percent", limit: { value: 1.5, unit: "K" }, percent: 0.4 },
    }),
    hygrometer: log.add(at, "instrument-listed", {
      name: "Hygrometer",
      measures: "humidity",
      accuracy: { kind: "limit", limit: percent(3) },
    }),
  };
}

function containers(log: InventedLog, at: string, scale: string, product: string) {
  const can = (name: string) =>
    log.add(at, "vessel-listed", {
      name,
      kind: "can",
      holds: { substance: { kind: "product", product }, mass: g(240), basis: "declared" },
    });
  const vessels = {
    r1: log.add(at, "vessel-listed", {
      name: "Cylinder R1",
      kind: "cylinder",
      tare: kg(6.82),
      waterCapacity: kg(11.9),
      ratedPressure: psig(400),
      holds: { substance: r134a, mass: kg(2.14), basis: "weighed", instrument: scale },
    }),
    x7: log.add(at, "vessel-listed", {
      name: "Cylinder X7",
      kind: "cylinder",
      tare: kg(6.41),
      waterCapacity: kg(11.9),
      flammableRated: true,
    }),
    can1: can("Can 1 of product B"),
    can2: can("Can 2 of product B, kept sealed"),
  };
  const note = "R1: tare weighed 6.82 kg, stamped 6.80 kg.";
  log.add("2026-06-13T15:30:00Z", "note-written", { stage: "plan", text: note });
  log.add("2026-06-13T15:35:00Z", "vessel-found-empty", {
    stage: "plan",
    vessel: vessels.x7,
    evidence: "New, evacuated before use.",
  });
  return vessels;
}

export type Things = ReturnType<typeof plan>;
