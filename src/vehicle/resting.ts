import { propertyPack } from "./pack/build-pack.ts";
import type { Composition } from "./pack/composition.ts";
import { along, createWeights, place } from "./pack/interpolate.ts";
import {
  bubblePressureAt,
  createIsobar,
  dewPressureAt,
  type Isobar,
  setPressure,
} from "./pack/isobar.ts";
import type { NoPack, Pack } from "./pack/pack.ts";
import { volumeOf } from "./system.ts";
import type { Fill } from "./case.ts";
import type { Vehicle } from "./parameters.ts";

/** Saturation of one composition as a reader of gauges needs it; K and absolute Pa. */
export interface Saturation {
  readonly kind: "saturation";
  /** Temperatures at a pressure held inside the pack. */
  readonly dewT: (p: number) => number;
  readonly bubbleT: (p: number) => number;
  /** Liquid on the bubble line at a temperature, kg/m³. */
  readonly liquidDensity: (T: number) => number;
}

/** Saturation from the composition's pack, which is built at the first request. */
export function saturationOf(composition: Composition): Saturation | NoPack {
  const outcome = propertyPack(composition);
  if (outcome.kind !== "pack") return outcome;
  const { pack } = outcome;
  const iso = createIsobar(pack);
  const at = (p: number): Isobar => {
    setPressure(iso, Math.min(pack.pMax, Math.max(pack.pMin, p)));
    return iso;
  };
  return {
    kind: "saturation",
    dewT: (p) => at(p).Td,
    bubbleT: (p) => at(p).Tb,
    liquidDensity: (T) => liquidDensity(pack, T),
  };
}

function liquidDensity({ liquidT, lH, liquidH, lRho }: Pack, T: number): number {
  const weights = createWeights();
  const { from, step, count } = liquidT;
  place(liquidT, Math.min(from + step * (count - 1), Math.max(from, T)), weights);
  place(liquidH, along(lH, weights), weights);
  return along(lRho, weights);
}

/**
 * Pressure of a system that has rested until all of it has one temperature, Pa absolute.
 *
 * Liquid and vapour of the refrigerant, or a thin vapour alone; air adds its own pressure in the room that the
 * liquid leaves.
 *
 * @param T      Of the metal, K.
 * @param filled Ambient at which the pressure of the air in `fill` was read, K.
 */
export function restingPressure(
  vehicle: Vehicle,
  fill: Fill,
  T: number,
  filled: number,
): number | NoPack {
  const outcome = propertyPack(fill.composition);
  if (outcome.kind !== "pack") return outcome;
  const { pack } = outcome;
  const V = volumeOf(vehicle);
  const iso = createIsobar(pack);
  const pDew = dewPressureAt(pack, T, createWeights());
  setPressure(iso, pDew);
  const rho = fill.charge / V;
  const wet = rho > iso.rhoD;
  const rhoL = liquidDensity(pack, T);
  const vapour = wet ? Math.max(0.05, (rhoL - rho) / (rhoL - iso.rhoD)) : 1;
  const air = (fill.air * T) / filled / vapour;
  if (!wet) return (pDew * rho) / iso.rhoD + air;
  return (pack.glide ? bubblePressureAt(iso, T) : pDew) + air;
}
