import type { ParameterName, Vehicle } from "../../vehicle/index.ts";

/**
 * Eight directions in which a baseline of idle and road runs can move the model of a vehicle; seventeen separate
 * parameters are beyond what such runs tell. Counted in prior standard deviations inside a fit.
 *
 * Source: docs/models/comparison.md (Fisher information of trials of the model; no measurement)
 */
export const lumpNames = [
  "control-setting",
  "idle-air",
  "ram-air",
  "condenser",
  "evaporator",
  "compressor",
  "cycling-head",
  "vent-offset",
] as const;
export type LumpName = (typeof lumpNames)[number];

export interface Lump {
  readonly name: LumpName;
  readonly what: string;
  readonly unit: "Pa" | "1" | "K";
  /** Factors are kept as logarithms in the fit and told as factors. */
  readonly form: "shift" | "factor";
  /** Prior standard deviation: in `unit`, of the logarithm for a factor. */
  readonly sigma: number;
}

const PSI = 6894.757;

export const lumps: readonly Lump[] = [
  {
    name: "control-setting",
    what: "Suction pressure at which the control holds; of a fin thermistor 0.6 K a psi",
    unit: "Pa",
    form: "shift",
    sigma: 1.7 * PSI,
  },
  {
    name: "idle-air",
    what: "Condenser air at idle, and the inverse of its preheating and recirculation",
    unit: "1",
    form: "factor",
    sigma: 0.35,
  },
  {
    name: "ram-air",
    what: "Condenser air from driving",
    unit: "1",
    form: "factor",
    sigma: 0.3,
  },
  {
    name: "condenser",
    what: "Conductances of the condenser",
    unit: "1",
    form: "factor",
    sigma: 0.2,
  },
  {
    name: "evaporator",
    what: "Conductances of the evaporator",
    unit: "1",
    form: "factor",
    sigma: 0.25,
  },
  {
    name: "compressor",
    what: "Displacement times filling of the compressor",
    unit: "1",
    form: "factor",
    sigma: 0.12,
  },
  {
    name: "cycling-head",
    what: "Rise of the head while a cycling clutch is engaged",
    unit: "1",
    form: "shift",
    sigma: 0.2,
  },
  {
    name: "vent-offset",
    what: "Vent probe against the model's mean of the outlets",
    unit: "K",
    form: "shift",
    sigma: 0.7,
  },
];

/** Parameters that a lump moves: their own ranges are covered by its prior. */
export const lumpedParameters: readonly ParameterName[] = [
  "switchOpens",
  "switchCloses",
  "switchWeight",
  "suctionSetting",
  "finTemperature",
  "finDifference",
  "fanFlow",
  "preheat",
  "recirculationShare",
  "ramFactor",
  "condenserAirUA",
  "condenserTwoPhaseUA",
  "evaporatorAirUA",
  "evaporatorTwoPhaseUA",
  "displacement",
  "volumetricEfficiency",
  "cyclingHead",
];

const FIN_KELVIN_A_PASCAL = 0.6 / PSI;

/** A vehicle moved along the lumps; `u` in prior standard deviations. The vent offset is no property of it. */
export function withLumps(vehicle: Vehicle, u: Float64Array): Vehicle {
  const v = vehicle.values;
  const at = (k: number): number => (u[k] ?? 0) * (lumps[k]?.sigma ?? 0);
  const factor = (k: number): number => Math.exp(at(k));
  const shift = at(0);
  const idle = factor(1);
  const values = {
    ...v,
    fanFlow: v.fanFlow * idle,
    preheat: v.preheat / idle,
    recirculationShare: Math.min(0.6, v.recirculationShare / idle),
    ramFactor: v.ramFactor * factor(2),
    condenserAirUA: v.condenserAirUA * factor(3),
    condenserTwoPhaseUA: v.condenserTwoPhaseUA * factor(3),
    evaporatorAirUA: v.evaporatorAirUA * factor(4),
    evaporatorTwoPhaseUA: v.evaporatorTwoPhaseUA * factor(4),
    displacement: v.displacement * factor(5),
    cyclingHead: Math.max(0, v.cyclingHead + at(6)),
  };
  switch (vehicle.control) {
    case "switch":
      values.switchOpens += shift;
      values.switchCloses += shift;
      break;
    case "displacement":
      values.suctionSetting += shift;
      break;
    case "fin":
      values.finTemperature += FIN_KELVIN_A_PASCAL * shift;
      break;
  }
  return { ...vehicle, values };
}

/** K that the vent probe reads above the model. */
export const ventOffset = (u: Float64Array): number => (u[7] ?? 0) * (lumps[7]?.sigma ?? 0);
