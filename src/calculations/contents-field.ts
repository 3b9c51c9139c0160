import { z } from "zod";
import { type Evidence, CONTENTS_T, families, findFamily } from "../evidence/index.ts";
import {
  type Accuracy,
  instrumentUncertainty,
  limitOfError,
  rectangular,
} from "../service/index.ts";
import { unitSize } from "../units/index.ts";
import { accuracy } from "./accuracy-field.ts";
import { issue, type Issue } from "./answer.ts";
import { findBlend } from "./blend-field.ts";
import { type Field, fraction, pressure, type PressureValue, quantity } from "./field.ts";
import { item, type Item, type ItemOf } from "./contents-items.ts";
import { Reader } from "./contents-reader.ts";
import { runningItem } from "./contents-running.ts";
import { findFluid } from "./fluid-field.ts";

/** Most pieces of evidence that one question carries. */
const MOST = 20;

const schema = z
  .array(item)
  .max(MOST)
  .describe(
    `What is known, 1 to ${MOST} of: {kind: "pressure", pressure, temperature, gauge?, thermometer?, vessel?: can | vehicle} static with liquid inside; {kind: "boiling", temperature, pressure?}; {kind: "fill", mass, volume, vessel?, full?} with full for a can as it was sold; {kind: "liquid-density", density, temperature}; {kind: "identifier", parts: [{substance, percent}]}; {kind: "detector", detects: combustible | halogen, responded}; {kind: "running", vehicle, label, charge, runs, baseline?} a vehicle that ran on a weighed charge of it; {kind: "label", declares}. Values are SI numbers or texts with units; standard uncertainties (pressureU, temperatureU, massU, volumeU, densityU, percentU, chargeU) are numbers in SI or per cent. Readings that name the same gaugeName or thermometerName share its error.`,
  );

const T_FIELD = quantity("temperature", "Temperature of the liquid", CONTENTS_T);
const P_FIELD = pressure("Pressure");
const MASS = quantity("mass", "Net mass", { from: 1e-3, to: 1e3 });
const VOLUME = quantity("volume", "Internal volume", { from: 1e-6, to: 1 });
const DENSITY = quantity("density", "Density of the liquid", { from: 50, to: 3000 });
const GAUGE = accuracy("pressure-difference", "Accuracy of the gauge");
const THERMOMETER = accuracy("temperature-difference", "Accuracy of the thermometer");
const RATE = fraction("A probability");

/** Instruments that are assumed where none is stated (common practice, no source). */
const ASSUMED_GAUGE: Accuracy = {
  kind: "percent-of-span-by-quarter",
  outer: 3,
  middle: 2,
  from: 0,
  to: 500 * unitSize("psi"),
};
const ASSUMED_THERMOMETER: Accuracy = { kind: "limit", limit: 2 };
const ASSUMED = { mass: 0.01, volume: 0.02, density: 0.02, barometer: 500 } as const;

const thermometerU = (T: number, given: Accuracy | undefined): number =>
  rectangular(limitOfError(given ?? ASSUMED_THERMOMETER, T - 273.15));

function pressureItem(raw: ItemOf<"pressure">, reader: Reader, air: number): Evidence | undefined {
  const p = reader.read<PressureValue>(P_FIELD, raw.pressure, "pressure");
  const T = reader.read(T_FIELD, raw.temperature, "temperature");
  const gauge = reader.read(GAUGE, raw.gauge, "gauge");
  const thermometer = reader.read(THERMOMETER, raw.thermometer, "thermometer");
  const u = reader.uncertainty(raw.pressureU, "pressureU");
  const uT = reader.uncertainty(raw.temperatureU, "temperatureU");
  if (!p || T === undefined) return undefined;
  if (p.p < 1e3 || p.p > 5e7) {
    reader.refuse("pressure", raw.pressure, "1 kPa to 50 MPa absolute");
    return undefined;
  }
  return {
    kind: "pressure",
    p: p.p,
    u: u ?? instrumentUncertainty(gauge ?? ASSUMED_GAUGE, p.p - air).u,
    T,
    uT: uT ?? thermometerU(T, thermometer),
    vessel: raw.vessel ?? "can",
    gauge: raw.gaugeName ?? "the gauge",
    thermometer: raw.thermometerName ?? "the thermometer",
  };
}

function boilingItem(raw: ItemOf<"boiling">, reader: Reader, air: number): Evidence | undefined {
  const p = reader.read<PressureValue>(P_FIELD, raw.pressure, "pressure");
  const T = reader.read(T_FIELD, raw.temperature, "temperature");
  const thermometer = reader.read(THERMOMETER, raw.thermometer, "thermometer");
  const uT = reader.uncertainty(raw.temperatureU, "temperatureU");
  if (T === undefined) return undefined;
  return {
    kind: "boiling",
    T,
    uT: uT ?? thermometerU(T, thermometer),
    p: p?.p ?? air,
    u: ASSUMED.barometer,
    thermometer: raw.thermometerName ?? "the thermometer",
  };
}

function fillItem(raw: ItemOf<"fill">, reader: Reader): Evidence | undefined {
  const mass = reader.read(MASS, raw.mass, "mass");
  const volume = reader.read(VOLUME, raw.volume, "volume");
  const uMass = reader.uncertainty(raw.massU, "massU");
  const uVolume = reader.uncertainty(raw.volumeU, "volumeU");
  if (mass === undefined || volume === undefined) return undefined;
  return {
    kind: "fill",
    vessel: raw.vessel ?? "can",
    mass,
    uMass: uMass ?? ASSUMED.mass * mass,
    volume,
    uVolume: uVolume ?? ASSUMED.volume * volume,
    full: raw.full ?? false,
  };
}

function densityItem(raw: ItemOf<"liquid-density">, reader: Reader): Evidence | undefined {
  const rho = reader.read(DENSITY, raw.density, "density");
  const T = reader.read(T_FIELD, raw.temperature, "temperature");
  const u = reader.uncertainty(raw.densityU, "densityU");
  if (rho === undefined || T === undefined) return undefined;
  return { kind: "liquid-density", rho, u: u ?? ASSUMED.density * rho, T };
}

type IdentifierPart = Extract<Evidence, { kind: "identifier" }>["parts"][number]["substance"];

/** Largest sum of an identifier's percentages, for rounding. */
const MOST_PERCENT = 102;

function identifierItem(raw: ItemOf<"identifier">, reader: Reader): Evidence | undefined {
  const u = reader.uncertainty(raw.percentU, "percentU");
  const parts = raw.parts.flatMap(({ substance, percent }, i) => {
    const known: IdentifierPart | undefined =
      substance === "air" || substance === "hydrocarbons" ? substance : findFluid(substance);
    if (known === undefined) {
      reader.refuse(`parts[${i}].substance`, substance, "a pure fluid, hydrocarbons or air");
    }
    if (!(percent >= 0 && percent <= 100)) {
      reader.refuse(`parts[${i}].percent`, percent, "0 to 100");
    }
    return known === undefined ? [] : [{ substance: known, fraction: percent / 100 }];
  });
  const sum = parts.reduce((total, each) => total + each.fraction, 0);
  if (!(sum <= MOST_PERCENT / 100)) reader.refuse("parts", 100 * sum, "at most 100 % together");
  return { kind: "identifier", parts, ...(u !== undefined && { u: u / 100 }) };
}

function detectorItem(raw: ItemOf<"detector">, reader: Reader): Evidence {
  const falseYes = reader.read(RATE, raw.falseYes, "falseYes");
  const falseNo = reader.read(RATE, raw.falseNo, "falseNo");
  for (const [key, rate] of [
    ["falseYes", falseYes],
    ["falseNo", falseNo],
  ] as const) {
    // Certainty would let one answer outweigh everything else for ever.
    if (rate !== undefined && !(rate >= 0.001 && rate <= 0.5)) {
      reader.refuse(key, rate, "0.1 % to 50 %");
    }
  }
  return {
    kind: "detector",
    detects: raw.detects,
    responded: raw.responded,
    ...(falseYes !== undefined && { falseYes }),
    ...(falseNo !== undefined && { falseNo }),
  };
}

/** The family that a label names: a fluid, a named blend, or a family's own id. */
export const familyNamed = (text: string): string | undefined =>
  findFamily(text)?.id ??
  findFamily(findFluid(text) ?? "")?.id ??
  findFamily(findBlend(text)?.blend ?? "")?.id;

function labelItem(raw: ItemOf<"label">, reader: Reader): Evidence | undefined {
  const trust = reader.read(RATE, raw.trust, "trust");
  const declares = familyNamed(raw.declares);
  if (declares === undefined) {
    reader.refuse("declares", raw.declares, `one of: ${families.map(({ id }) => id).join(", ")}`);
    return undefined;
  }
  if (trust !== undefined && trust > 0.99) {
    reader.refuse("trust", trust, "at most 99 %: a label proves nothing");
  }
  return { kind: "label", declares, ...(trust !== undefined && { trust }) };
}

function readItem(raw: Item, reader: Reader, air: number): Evidence | undefined {
  switch (raw.kind) {
    case "pressure":
      return pressureItem(raw, reader, air);
    case "boiling":
      return boilingItem(raw, reader, air);
    case "fill":
      return fillItem(raw, reader);
    case "liquid-density":
      return densityItem(raw, reader);
    case "identifier":
      return identifierItem(raw, reader);
    case "detector":
      return detectorItem(raw, reader);
    case "running":
      return runningItem(raw, reader);
    case "label":
      return labelItem(raw, reader);
  }
}

/** Everything that is known of one content. */
export const evidenceField: Field<readonly Evidence[]> = {
  schema,
  required: true,
  read(raw, field, air) {
    const list = z.array(item).parse(raw);
    if (list.length === 0) {
      return {
        kind: "unusable",
        issues: [issue(field, "nothing", "at least one piece of evidence")],
      };
    }
    const read = list.map((each, i) => {
      const reader = new Reader(`${field}[${i}]`, air);
      return { evidence: readItem(each, reader, air), issues: reader.issues };
    });
    const issues = read.flatMap((each) => each.issues);
    if (issues.length > 0) return { kind: "unusable", issues };
    return { kind: "value", value: read.flatMap(({ evidence }) => evidence ?? []) };
  },
};

/** Prior weights of families that replace those of the house. */
export const priorField: Field<Readonly<Record<string, number>>> = {
  schema: z
    .record(z.string().max(60), z.number())
    .describe(
      "Weight of families before the evidence, by their id, 0 or more; the others keep theirs.",
    ),
  required: true,
  read(raw, field) {
    const issues: Issue[] = [];
    const weights = Object.entries(z.record(z.string(), z.number()).parse(raw)).map(
      ([key, weight]) => {
        const id = familyNamed(key);
        if (id === undefined) issues.push(issue(`${field}.${key}`, weight, "the id of a family"));
        if (!(weight >= 0 && weight <= 1e6)) {
          issues.push(issue(`${field}.${key}`, weight, "a weight from 0 to 1000000"));
        }
        return [id ?? key, weight] as const;
      },
    );
    if (issues.length > 0) return { kind: "unusable", issues: issues.slice(0, MOST) };
    return { kind: "value", value: Object.fromEntries(weights) };
  },
};
