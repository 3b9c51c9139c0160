import { z } from "zod";
import type { LocalAir } from "../service/index.ts";
import { type Conditions, type Faults, type ReturnAir, sound } from "../vehicle/index.ts";
import { type InvalidInput, invalidInput, issue, type Issue } from "./answer.ts";
import { type Field, fraction, optional, quantity } from "./field.ts";
import { substanceFields } from "./substance-field.ts";
import { vehicleField, type VehicleValue } from "./vehicle-field.ts";

/** Air in which the model is used, K. */
const AIR = { from: 253.15, to: 333.15 };
const amount = z.union([z.number(), z.string().max(80)]);

const temperature = quantity("temperature", "Air that returns to the evaporator", AIR);
const relative = fraction("Relative humidity of it");

/** Reads the named parts of a nested record, each with its own field. */
function readParts<T extends object>(
  raw: unknown,
  name: string,
  air: number,
  parts: { readonly [K in keyof T]: Field<T[K]> },
): { readonly values: Partial<T>; readonly issues: readonly Issue[] } {
  const values: Partial<T> = {};
  const issues: Issue[] = [];
  for (const key of Object.keys(parts) as (keyof T & string)[]) {
    const given = (raw as Partial<Record<string, unknown>>)[key];
    if (given === undefined) continue;
    const outcome = parts[key].read(given, `${name}.${key}`, air);
    if (outcome.kind === "value") values[key] = outcome.value;
    else issues.push(...outcome.issues);
  }
  return { values, issues };
}

export interface Measured {
  readonly T: number;
  readonly humidity: number;
}

/** Measured return air. */
const returnAirField: Field<Partial<Measured>> = {
  schema: z
    .strictObject({
      T: amount.describe("Temperature of the air at the recirculation intake"),
      humidity: amount.optional().describe("Its relative humidity"),
    })
    .describe(
      "Air that returns from the cabin, measured: {T, humidity}. Worth more than any other refinement. Without it a pull-down is assumed.",
    ),
  required: true,
  read(raw, name, air) {
    const { values, issues } = readParts<Measured>(raw, name, air, {
      T: temperature,
      humidity: relative,
    });
    return issues.length > 0 ? { kind: "unusable", issues } : { kind: "value", value: values };
  },
};

/** Faults as shares lost or added. */
export interface FaultShares {
  readonly undercharge: number;
  readonly overcharge: number;
  readonly weakCompressor: number;
  readonly blockedCondenser: number;
  readonly restriction: number;
}

const share = (says: string, to: number): Field<number> => quantity("ratio", says, { from: 0, to });
const faultParts: { readonly [K in keyof FaultShares]: Field<number> } = {
  undercharge: share("Share of the charge that is missing", 0.95),
  overcharge: share("Share of the charge that is too much", 1),
  weakCompressor: share("Share of the compressor's flow that is lost", 0.8),
  blockedCondenser: share("Share of the condenser's air that is lost", 0.8),
  restriction: share("Share of the expansion device's area that is lost", 0.9),
};

const faultsField: Field<Partial<FaultShares>> = {
  schema: z
    .strictObject({
      undercharge: amount.optional().describe("Share of the charge that is missing, to 0.95"),
      overcharge: amount.optional().describe("Share of the charge that is too much, to 1"),
      weakCompressor: amount.optional().describe("Share of the compressor's flow lost, to 0.8"),
      blockedCondenser: amount.optional().describe("Share of the condenser's air lost, to 0.8"),
      restriction: amount.optional().describe("Share of the expansion area lost, to 0.9"),
    })
    .describe("Faults, each as a share lost or added: 0.3 or 30 %. Air goes into `air`."),
  required: true,
  read(raw, name, air) {
    const { values, issues } = readParts<FaultShares>(raw, name, air, faultParts);
    return issues.length > 0 ? { kind: "unusable", issues } : { kind: "value", value: values };
  },
};

const flag = (says: string): Field<boolean> => ({
  schema: z.boolean().describe(says),
  required: true,
  read: (raw) => ({ kind: "value", value: raw === true }),
});

/** What the model is asked; read the values with {@link conditionsOf} and {@link faultsOf}. */
export const vehicleFields = {
  vehicle: vehicleField,
  ...substanceFields,
  charge: quantity("mass", "Refrigerant in the system", { from: 1e-3, to: 20 }),
  ambient: quantity("temperature", "Outside air", AIR),
  humidity: fraction("Relative humidity of the outside air"),
  returnAir: optional(returnAirField),
  pulldown: optional(
    fraction(
      "How far the cabin has come from outside air to its steady state: 0 doors open, 0.45 after a short idle, 0.9 after a long drive; 0.45 if neither this nor the return air is given",
    ),
  ),
  speed: optional(quantity("speed", "Speed of the vehicle; 0 if left out", { from: 0, to: 60 })),
  engineSpeed: optional(
    quantity("rotation", "Engine speed; 700 rpm if left out", { from: 5, to: 120 }),
  ),
  blower: optional(quantity("ratio", "Blower, share of the most air; 1", { from: 0.2, to: 1 })),
  recirculation: optional(fraction("Share of cabin air in the air to the evaporator; 1")),
  air: optional(
    quantity("pressure-difference", "Air left in before charging: its absolute pressure", {
      from: 0,
      to: 110e3,
    }),
  ),
  faults: optional(faultsField),
  band: optional(flag("Whether to give bands from the plausible ranges of the parameters")),
} as const;

/** The read values that make a case. */
export interface CaseValues {
  readonly vehicle: VehicleValue;
  readonly charge: number;
  readonly ambient: number;
  readonly humidity: number;
  readonly returnAir: Partial<Measured> | undefined;
  readonly pulldown: number | undefined;
  readonly speed: number | undefined;
  readonly engineSpeed: number | undefined;
  readonly blower: number | undefined;
  readonly recirculation: number | undefined;
  readonly air: number | undefined;
  readonly faults: Partial<FaultShares> | undefined;
}

/** Those of them that make the conditions of a run. */
export type ConditionValues = Pick<
  CaseValues,
  | "ambient"
  | "humidity"
  | "returnAir"
  | "pulldown"
  | "speed"
  | "engineSpeed"
  | "blower"
  | "recirculation"
>;

const IDLE = 700 / 60;
/** Pull-down after a short idle (judged). */
const SHORT_IDLE = 0.45;
/** Occupants of a test: the tester (common practice). */
const TESTER = 1;

function returnAirOf({ returnAir, pulldown }: ConditionValues): ReturnAir {
  if (returnAir?.T !== undefined) {
    const { T, humidity } = returnAir;
    return { kind: "measured", T, ...(humidity !== undefined && { humidity }) };
  }
  return { kind: "pull-down", share: pulldown ?? SHORT_IDLE };
}

/** The conditions of a case, or what contradicts. */
export function conditionsOf(
  values: ConditionValues,
  air: Pick<LocalAir, "p">,
): Conditions | InvalidInput {
  if (values.returnAir !== undefined && values.pulldown !== undefined) {
    return invalidInput(
      issue("pulldown", "both returnAir and pulldown", "either returnAir or pulldown"),
    );
  }
  return {
    ambient: values.ambient,
    humidity: values.humidity,
    pAir: air.p,
    speed: values.speed ?? 0,
    engineSpeed: values.engineSpeed ?? IDLE,
    blower: values.blower ?? 1,
    recirculation: values.recirculation ?? 1,
    returnAir: returnAirOf(values),
    occupants: TESTER,
  };
}

/** Faults of the model, and the charge with them, kg. */
export function faultsOf({ charge, faults = {} }: CaseValues): {
  readonly faults: Faults;
  readonly charge: number;
} {
  const left = (lost: number | undefined): number => 1 - (lost ?? 0);
  return {
    faults: {
      ...sound,
      weakCompressor: left(faults.weakCompressor),
      blockedCondenser: left(faults.blockedCondenser),
      restriction: left(faults.restriction),
    },
    charge: charge * (left(faults.undercharge) + (faults.overcharge ?? 0)),
  };
}

/** Which fields of a case were taken for granted, as sentences. */
export function caseAssumptions(
  values: ConditionValues & Pick<CaseValues, "vehicle">,
): readonly string[] {
  const { returnAir, pulldown, speed, engineSpeed } = values;
  const said: readonly (readonly [boolean, string])[] = [
    [
      returnAir === undefined && pulldown === undefined,
      "Return air was not given: a cabin at 0.45 of its pull-down was assumed. Measuring its temperature and humidity narrows the vent more than anything else.",
    ],
    [
      returnAir !== undefined && returnAir.humidity === undefined,
      "Humidity of the return air follows from how far the cabin is cooled (common practice, no source).",
    ],
    [
      values.vehicle.sized,
      "Sizes that were not given are those of the preset scaled to the label charge (common practice, no source).",
    ],
    [speed === undefined, "The vehicle stands."],
    [engineSpeed === undefined, "The engine idles at 700 rpm."],
  ];
  return said.filter(([holds]) => holds).map(([, text]) => text);
}
