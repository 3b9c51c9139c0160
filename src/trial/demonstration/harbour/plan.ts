import { g, kg, percent, psig, r134a } from "../hill-town-entries.ts";
import type { InventedLog } from "../log.ts";

export const opened = "2026-08-03T13:00:00Z";

/** Plan of the harbour trial: the question, the vehicle, instruments, three products, vessels; gives their ids. */
export function plan(log: InventedLog) {
  log.add(opened, "trial-opened", {
    title: "Harbour van: three cans against R134a",
    question:
      "Three cans are sold as a refill for a van labelled R134a. Does each hold what it says, does it cool as well at the vent within 2 K, and is it safe to own, charge and drive with?",
    place: "a garage by a tidal harbour",
    altitude: { value: 18, unit: "m" },
    margin: { value: 2, unit: "K" },
    conditions:
      "Parked at idle, then road at 72 km/h (45 mph); fan full, recirculation, doors and windows shut. Two days of the label refrigerant before, two runs after.",
    demonstration: true,
  });
  log.add(opened, "vehicle-described", {
    name: "Six-seat harbour van",
    labelRefrigerant: "R134a",
    labelCharge: kg(0.6),
    meteringDevice: "expansion-valve",
    compressor: "variable",
    oil: "PAG 46",
    cabinVolume: { value: 4.6, unit: "m3" },
    internalVolume: { value: 2.15, unit: "L" },
  });
  const tools = instruments(log);
  const wares = products(log);
  const vessels = containers(log, tools.scale, wares);
  for (const item of ["hazards-read", "law-asked"]) {
    log.add("2026-08-03T14:00:00Z", "item-confirmed", { stage: "plan", item, confirmed: true });
  }
  return { ...tools, ...wares, ...vessels };
}
export type Things = ReturnType<typeof plan>;

function instruments(log: InventedLog) {
  const list = (body: Parameters<typeof log.add<"instrument-listed">>[2]) =>
    log.add(opened, "instrument-listed", body);
  const transducer = (name: string, span: number) =>
    list({
      name,
      measures: "pressure",
      accuracy: { kind: "percent-of-span", percent: 0.5, from: psig(0), to: psig(span) },
    });
  return {
    lowGauge: transducer("Low-side transducer, 0 to 150 psi", 150),
    highGauge: transducer("High-side transducer, 0 to 500 psi", 500),
    vacuumGauge: list({
      name: "Thermistor vacuum gauge",
      measures: "vacuum",
      accuracy: { kind: "percent-of-reading", percent: 10 },
    }),
    scale: list({
      name: "Bench scale",
      measures: "mass",
      accuracy: { kind: "limit", limit: g(3) },
      resolution: g(2),
    }),
    thermometer: list({
      name: "Type T thermometer, class 1",
      measures: "temperature",
      accuracy: { kind: "limit-or-percent", limit: { value: 0.5, unit: "K" }, percent: 0.4 },
    }),
    hygrometer: list({
      name: "Hygrometer",
      measures: "humidity",
      accuracy: { kind: "limit", limit: percent(2) },
    }),
    identifier: list({
      name: "Electronic identifier",
      measures: "other",
      accuracy: { kind: "limit", limit: percent(2) },
    }),
  };
}

const products = (log: InventedLog) => ({
  heron: log.add(opened, "product-listed", {
    name: "Heron",
    fluid: "R134a",
    declares: "R134a, 340 g net.",
    labelMass: g(340),
    claims: ["Contains pure R134a.", "340 g net.", "Does not harm the ozone layer."],
    price: "14.50 EUR",
    fitting: "Self-sealing can valve",
    flammableMark: false,
  }),
  kestrel: log.add(opened, "product-listed", {
    name: "Kestrel",
    declares: "A blend of propane (R290) and isobutane (R600a); the shares are not given.",
    labelMass: { value: 6, unit: "oz" },
    claims: [
      "6 oz equals 17 oz of R134a.",
      "6 oz net.",
      "Colder air than R134a.",
      "Lower head pressure.",
      "Zero GWP.",
      "Does not harm the ozone layer.",
      "Drop-in: no parts to change.",
    ],
    price: "9.95 EUR",
    fitting: "Threaded can tap",
    flammableMark: true,
  }),
  magpie: log.add(opened, "product-listed", {
    name: "Magpie",
    fluid: "R134a",
    declares: "R134a, 340 g net.",
    labelMass: g(340),
    claims: ["Contains pure R134a.", "340 g net.", "Does not harm the ozone layer."],
    price: "6.00 EUR",
    fitting: "Self-sealing can valve",
    flammableMark: false,
  }),
});

function containers(log: InventedLog, scale: string, wares: ReturnType<typeof products>) {
  const can = (name: string, product: string, mass: { value: number; unit: string }) =>
    log.add(opened, "vessel-listed", {
      name,
      kind: "can",
      holds: { substance: { kind: "product", product }, mass, basis: "declared" },
    });
  const cylinder = (name: string, tare: number, flammableRated = false) =>
    log.add(opened, "vessel-listed", {
      name,
      kind: "cylinder",
      tare: kg(tare),
      waterCapacity: kg(11.9),
      ratedPressure: psig(400),
      ...(flammableRated && { flammableRated }),
      ...(name === "Cylinder R1" && {
        holds: { substance: r134a, mass: kg(3.2), basis: "weighed" as const, instrument: scale },
      }),
    });
  const vessels = {
    r1: cylinder("Cylinder R1", 6.74),
    x1: cylinder("Cylinder X1", 6.8),
    x2: cylinder("Cylinder X2", 6.76, true),
    x3: cylinder("Cylinder X3", 6.82),
    heron1: can("Heron, can 1", wares.heron, g(340)),
    heron2: can("Heron, can 2", wares.heron, g(340)),
    kestrel1: can("Kestrel, can 1", wares.kestrel, { value: 6, unit: "oz" }),
    kestrel2: can("Kestrel, can 2, kept sealed", wares.kestrel, { value: 6, unit: "oz" }),
    magpie1: can("Magpie, can 1", wares.magpie, g(340)),
    magpie2: can("Magpie, can 2", wares.magpie, g(340)),
  };
  for (const vessel of [vessels.x1, vessels.x2, vessels.x3]) {
    log.add("2026-08-03T13:50:00Z", "vessel-found-empty", {
      stage: "plan",
      vessel,
      evidence: "New, evacuated before use.",
    });
  }
  return vessels;
}
