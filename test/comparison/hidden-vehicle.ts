import { normal, type Random } from "../../src/numerics/index.ts";
import {
  type Conditions,
  createRunWork,
  type Fill,
  presetNames,
  presetVehicle,
  type Running,
  runVehicle,
  type RunWork,
  type Vehicle,
} from "../../src/vehicle/index.ts";
import { withLumps } from "../../src/evidence/comparison/lumps.ts";
import { drawUnfitted, unfittedParameters } from "../../src/evidence/comparison/unfitted.ts";

/**
 * Physics that the fitted model does not have, all of it changing with the conditions, so that no fit of
 * constants can follow. Sizes 0 to 1 of what is plausible.
 */
export interface Oddities {
  /** Share of the air that passes beside the coil, at full blower; it grows with the coil's wetness. */
  readonly coilBypass: number;
  /** Loss of condenser conductance where ram air meets the face unevenly. */
  readonly unevenRam: number;
  /** Mass of oil in the circulating refrigerant at 25 rev/s of the compressor. */
  readonly oil: number;
  /** Pressure lost in the suction line and between condenser and port, over the model's. */
  readonly pressureDrop: number;
}

export interface HiddenVehicle {
  /** What a tester would choose: the preset. */
  readonly believed: Vehicle;
  /** All parameters as they are but for the lumps. */
  readonly drawn: Vehicle;
  readonly vehicle: Vehicle;
  readonly oddities: Oddities;
  readonly work: RunWork;
}

/** A vehicle as the priors have it, with oddities of a size. */
export function hiddenVehicle(random: Random, size: number): HiddenVehicle {
  const preset = presetNames[Math.floor(random() * presetNames.length)] ?? "large-orifice";
  const believed = presetVehicle(preset);
  const drawn = drawUnfitted(believed, unfittedParameters(believed, []), random);
  const u = Float64Array.from({ length: 8 }, () => Math.min(2.5, Math.max(-2.5, normal(random))));
  return {
    believed,
    drawn,
    vehicle: withLumps(drawn, u),
    oddities: {
      coilBypass: size * 0.15 * random(),
      unevenRam: size * 0.3 * random(),
      oil: size * 0.06 * random(),
      pressureDrop: size * 2 * random(),
    },
    work: createRunWork(),
  };
}

/** The hidden vehicle in some conditions, as it would be read without any error. */
export function truth(
  { vehicle, oddities, work }: HiddenVehicle,
  conditions: Conditions,
  fill: Fill,
): Running | undefined {
  const v = vehicle.values;
  const { coilBypass, unevenRam, oil, pressureDrop } = oddities;
  const N = (conditions.engineSpeed * v.pulleyRatio) / 25;
  const wet = 1 + 1.5 * (conditions.humidity - 0.5);
  const bypass = Math.min(0.4, coilBypass * conditions.blower * wet);
  const oiled = Math.max(0.5, 1 - 4 * oil * Math.sqrt(N));
  const ram = 1 - unevenRam * (1 - Math.exp(-conditions.speed / 12));
  const odd = {
    ...vehicle,
    values: {
      ...v,
      airFlow: v.airFlow * (1 - bypass),
      evaporatorTwoPhaseUA: v.evaporatorTwoPhaseUA * oiled,
      condenserTwoPhaseUA: v.condenserTwoPhaseUA * oiled,
      condenserAirUA: v.condenserAirUA * ram,
      volumetricEfficiency: v.volumetricEfficiency * (1 - oil * N),
      suctionResistance: v.suctionResistance * (1 + pressureDrop),
      dischargeResistance: v.dischargeResistance * (1 + pressureDrop),
    },
  };
  const run = runVehicle({ vehicle: odd, conditions, fill }, work);
  if (run.kind !== "running") return undefined;
  // Dynamic pressure between condenser and port: some 30 kPa at the largest flow of the large preset.
  const lost = (pressureDrop * 1.5e4 * (run.massFlow / 0.04) ** 2 * 1e6) / run.high;
  const vent = run.vent + bypass * (run.coilAir.T - run.vent);
  const high = run.high - lost;
  const { highOn } = run;
  return { ...run, vent, high, ...(highOn !== undefined && { highOn: highOn - lost }) };
}
