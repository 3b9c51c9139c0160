import {
  type ParameterView,
  type PresetView,
  vehicleParameters,
  vehiclePresets,
} from "../../calculations/index.ts";
import { type Dimension, fromSI, parseQuantity, toSI } from "../../units/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { type Chosen, chosen } from "../fluids/chosen.ts";
import { type QuantitySpec, typedQuantity } from "../fluids/fields.tsx";
import { overridesOf } from "./overrides.ts";
import { specOf, type VehicleSpecName, vehicleSpecs } from "./vehicle-specs.ts";

/** What the page knows before anybody typed: from a trial, or the usual. */
export interface Given {
  readonly preset?: string;
  readonly fluid: string;
  /** kg */
  readonly labelCharge?: number;
  /** Barometer of a trial, Pa. */
  readonly barometer?: number;
}

type Input = Readonly<Record<string, unknown>>;

/** The page's fields as a question to the model. */
export interface VehicleCase {
  readonly preset: PresetView;
  readonly substance: Chosen | undefined;
  readonly specs: Readonly<Record<VehicleSpecName, QuantitySpec>>;
  /** kg; the usual one while what is typed is no mass. */
  readonly labelCharge: number;
  readonly parameters: readonly ParameterView[];
  /** The typed place on the axes of sweeps, SI. */
  readonly here: Readonly<Record<"ambient" | "humidity" | "speed" | "charge", number | undefined>>;
  /** As `vehicle` takes it; undefined while something that it needs is not typed. */
  readonly input: Input | undefined;
}

/** Four digits of a mass are more than any label has. */
const massText = (kg: number, unit: string): string =>
  String(Number(fromSI(kg, unit).toPrecision(4)));

export function presetChosen(draft: FieldDraft, { preset }: Given): PresetView {
  const name = draft.field("preset", preset);
  const found = vehiclePresets.find((one) => one.name === name) ?? vehiclePresets[0];
  if (!found) throw new RangeError("there is no preset of a vehicle");
  return found;
}

/** A typed quantity in SI, if it is one. */
function siOf(text: string | undefined, dimension: Dimension): number | undefined {
  const parsed = text === undefined ? undefined : parseQuantity(text, dimension);
  return parsed === undefined || parsed.kind === "invalid" ? undefined : toSI(parsed.quantity);
}

const specNames = Object.keys(vehicleSpecs) as VehicleSpecName[];
const needed = ["labelCharge", "ambient", "humidity"] as const;

/** Reads the fields of the page. */
export function vehicleCase(draft: FieldDraft, given: Given): VehicleCase {
  const preset = presetChosen(draft, given);
  const usual = given.labelCharge ?? preset.labelCharge;
  const specs = Object.fromEntries(
    specNames.map((name) => [
      name,
      specOf(name, draft, name === "labelCharge" ? (unit) => massText(usual, unit) : undefined),
    ]),
  ) as Record<VehicleSpecName, QuantitySpec>;
  const typed = (name: VehicleSpecName) => typedQuantity(specs[name], draft);
  const si = (name: VehicleSpecName) => siOf(typed(name), specs[name].dimension);
  const labelCharge = si("labelCharge") ?? usual;
  const parameters = vehicleParameters(preset.name, labelCharge);
  const substance = chosen(given.fluid, draft);
  const complete = needed.every((name) => typed(name) !== undefined);
  return {
    preset,
    substance,
    specs,
    labelCharge,
    parameters,
    here: {
      ambient: si("ambient"),
      humidity: si("humidity"),
      speed: si("speed"),
      charge: si("charge") ?? labelCharge,
    },
    input:
      complete && substance
        ? {
            vehicle: {
              preset: preset.name,
              labelCharge: typed("labelCharge"),
              ...overridesOf(draft, parameters),
            },
            ...substance.input,
            charge: typed("charge") ?? typed("labelCharge"),
            ...conditionsInput(typed, draft, given),
          }
        : undefined,
  };
}

function conditionsInput(
  typed: (name: VehicleSpecName) => string | undefined,
  draft: FieldDraft,
  given: Given,
): Input {
  const plain = ["ambient", "humidity", "speed", "engineSpeed", "blower"] as const;
  const T = typed("returnT");
  const humidity = typed("returnHumidity");
  const altitude = typed("altitude");
  return {
    ...Object.fromEntries(
      plain.flatMap((name) => {
        const value = typed(name);
        return value === undefined ? [] : [[name, value]];
      }),
    ),
    recirculation: draft.field("airSource", "cabin") === "cabin" ? 1 : 0,
    ...(T !== undefined && { returnAir: { T, ...(humidity !== undefined && { humidity }) } }),
    ...(altitude !== undefined
      ? { altitude }
      : given.barometer !== undefined && { barometer: given.barometer }),
  };
}
