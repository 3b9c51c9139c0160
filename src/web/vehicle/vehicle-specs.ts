import type { QuantitySpec } from "../fluids/fields.tsx";
import { unitOfSpec } from "../fluids/fields.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";

const temperature = { dimension: "temperature", usual: { us: "°F", si: "°C" } } as const;
const mass = { dimension: "mass", usual: { us: "lb", si: "g" } } as const;
const ratio = { dimension: "ratio", usual: { us: "%", si: "%" } } as const;

/** The fields of this page; names are those of the calculation's input where it has one. */
export const vehicleSpecs = {
  labelCharge: { name: "labelCharge", label: "Charge on the label", ...mass },
  charge: { name: "charge", label: "Charge inside", ...mass },
  ambient: { name: "ambient", label: "Outside temperature", ...temperature },
  humidity: { name: "humidity", label: "Outside humidity", ...ratio },
  speed: {
    name: "speed",
    label: "Road speed",
    dimension: "speed",
    usual: { us: "mph", si: "km/h" },
  },
  engineSpeed: {
    name: "engineSpeed",
    label: "Engine",
    dimension: "rotation",
    usual: { us: "rpm", si: "rpm" },
  },
  blower: { name: "blower", label: "Blower, share of the most air", ...ratio },
  returnT: { name: "returnT", label: "Return air into the unit", ...temperature },
  returnHumidity: { name: "returnHumidity", label: "Humidity of the return air", ...ratio },
  altitude: {
    name: "altitude",
    label: "Altitude",
    dimension: "length",
    usual: { us: "ft", si: "m" },
  },
} as const satisfies Record<string, QuantitySpec>;
export type VehicleSpecName = keyof typeof vehicleSpecs;

/** Starting values, in the unit that stands beside the field: a warm day, parked, engine raised. */
const starts: Readonly<Partial<Record<VehicleSpecName, Readonly<Record<string, string>>>>> = {
  ambient: { "°F": "95", "°C": "35", K: "308" },
  humidity: { "%": "40", "1": "0.4" },
  speed: { mph: "0", "km/h": "0", "m/s": "0" },
  engineSpeed: { rpm: "1500", "rev/s": "25" },
  blower: { "%": "100", "1": "1" },
};

/** A field with the value to start from. */
export function specOf(
  name: VehicleSpecName,
  draft: FieldDraft,
  initial?: (unit: string) => string,
): QuantitySpec {
  const spec: QuantitySpec = vehicleSpecs[name];
  const unit = unitOfSpec(spec, draft);
  const start = initial?.(unit) ?? starts[name]?.[unit];
  return start === undefined ? spec : { ...spec, initial: start };
}
