import { fluidIds } from "../../fluids/index.ts";
import { type Material, materialOf } from "../bulk/material.ts";
import { saturatedEnds } from "../bulk/saturated.ts";

/** Liquid volumes are compared at 25 °C, heat of evaporation at 5 °C, an evaporator's temperature; K. */
const T_LIQUID = 298.15;
const T_EVAPORATOR = 278.15;

/** How much of another refrigerant a kilogram is worth, by what "equals" may mean; kg/kg. */
export interface Equivalence {
  /** The same volume of liquid at 25 °C: where such figures on labels come from. */
  readonly liquidVolume: number;
  /** The same number of molecules. */
  readonly moles: number;
  /** The same heat taken up by evaporating once at 5 °C. */
  readonly heat: number;
}

/** Heat of evaporation of the whole composition at 5 °C, at constant pressure, J/kg. */
export function heatOfEvaporation(material: Material): number | undefined {
  const ends = saturatedEnds(material, "T", T_EVAPORATOR);
  return ends && ends.dew.h - ends.bubble.h;
}

/**
 * What a kilogram of a material is worth in kilograms of a reference.
 *
 * @returns `undefined` where one of them is not liquid at 25 °C or 5 °C.
 *
 * Checked: claims-physics.test.ts
 */
export function equivalenceOf(material: Material, reference: Material): Equivalence | undefined {
  const [mine, theirs] = [material, reference].map((one) => saturatedEnds(one, "T", T_LIQUID));
  const [heat, other] = [heatOfEvaporation(material), heatOfEvaporation(reference)];
  if (!mine || !theirs || heat === undefined || other === undefined) return undefined;
  return {
    liquidVolume: theirs.bubble.rho / mine.bubble.rho,
    moles: reference.M / material.M,
    heat: heat / other,
  };
}

/** Atmospheric: what boils above 25 °C at it is no refrigerant of a vehicle. Pa */
const AIR = 101325;

/**
 * The largest heat of evaporation among the fluids known here that boil below 25 °C, J/kg, and whose it is. A mixture
 * carries no more than its best part but for its heat of mixing, which is small.
 */
export const largestHeat = (): LargestHeat => (largest ??= findLargest());

interface LargestHeat {
  readonly fluid: string;
  readonly heat: number;
}
/** Follows from the equations alone: found once, when it is asked for first. */
let largest: LargestHeat | undefined;

function findLargest(): LargestHeat {
  return fluidIds.reduce(
    (best, fluid) => {
      const material = materialOf([{ fluid, fraction: 1 }]);
      const boils = (saturatedEnds(material, "T", T_LIQUID)?.bubble.p ?? 0) > AIR;
      const heat = boils ? (heatOfEvaporation(material) ?? 0) : 0;
      return heat > best.heat ? { fluid, heat } : best;
    },
    { fluid: "", heat: 0 },
  );
}
