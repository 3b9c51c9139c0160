import { type Unit, unitById } from "./table.ts";

/** A number with its unit as somebody said it. */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

function finite(value: number, what: string): number {
  if (!Number.isFinite(value)) throw new RangeError(`${what} is not a finite number: ${value}`);
  return value;
}

function airOf(unit: Unit, atmosphere: number | undefined): number {
  if (atmosphere === undefined) {
    throw new RangeError(`"${unit.id}" counts from the local air: the atmosphere in Pa is needed`);
  }
  return finite(atmosphere, "the atmosphere");
}

/**
 * A quantity in SI: K, absolute Pa, kg, m³, m, m/s, revolutions per second, fraction, s, kg/m³, J/kg, J/(kg K).
 *
 * A vacuum deeper than the local air allows gives a pressure below zero; the caller judges it.
 *
 * @param quantity   Value and unit id.
 * @param atmosphere Local air pressure, Pa; needed by gauge and vacuum units only.
 * @throws RangeError for an unknown unit, a number that is not finite, or a missing atmosphere.
 */
export function toSI(quantity: Quantity, atmosphere?: number): number {
  const unit = unitById(quantity.unit);
  const step = finite(quantity.value, "the value") * unit.size;
  switch (unit.reference) {
    case "gauge":
      return airOf(unit, atmosphere) + step;
    case "vacuum":
      return airOf(unit, atmosphere) - step;
    case "absolute":
    case undefined:
      // A plain multiple stays exact: nothing is added to what has no offset.
      return unit.zero === 0 ? step : step + unit.zero;
  }
}

/**
 * An SI value in a unit; the inverse of `toSI`, with the same errors.
 *
 * @param value      SI value.
 * @param atmosphere Local air pressure, Pa; needed by gauge and vacuum units only.
 */
export function fromSI(value: number, unitId: string, atmosphere?: number): number {
  const unit = unitById(unitId);
  finite(value, "the value");
  switch (unit.reference) {
    case "gauge":
      return (value - airOf(unit, atmosphere)) / unit.size;
    case "vacuum":
      return (airOf(unit, atmosphere) - value) / unit.size;
    case "absolute":
    case undefined:
      return (value - unit.zero) / unit.size;
  }
}

/** SI size of one step of a unit: what an uncertainty or a difference in that unit is multiplied by. */
export const unitSize = (unitId: string): number => unitById(unitId).size;

/** The same quantity in another unit; errors as `toSI`. The caller minds that the dimensions agree. */
export const convert = (quantity: Quantity, unitId: string, atmosphere?: number): Quantity => ({
  value: fromSI(toSI(quantity, atmosphere), unitId, atmosphere),
  unit: unitId,
});
