import type { Quantity } from "./convert.ts";
import { type Unit, unitById } from "./table.ts";

/** Narrow no-break space: between groups of digits and before the unit. */
export const THIN_SPACE = "\u202f";
/** The sign of a negative number, as wide as the digits. */
export const MINUS = "−";

const LARGEST_DECIMALS = 12;

/** Groups of three from five digits on; four digits stand together, as in print. */
function grouped(digits: string): string {
  const [whole = "", part] = digits.split(".");
  const groups = whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE);
  return part === undefined ? groups : `${groups}.${part}`;
}

function signed(value: number, digits: string): string {
  const zero = !/[1-9]/.test(digits);
  return value < 0 && !zero ? MINUS + digits : digits;
}

/**
 * A number rounded to so many decimals; a negative count rounds to tens, hundreds and so on.
 * @throws RangeError if the value is not finite.
 */
export function formatNumber(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`cannot write ${value} as a number`);
  const size = Math.abs(value);
  // Beyond 1e15 a double has no digits to spare and beyond 1e21 `toFixed` changes its form.
  if (size >= 1e15) return signed(value, size.toExponential(3));
  if (decimals >= 0)
    return signed(value, grouped(size.toFixed(Math.min(decimals, LARGEST_DECIMALS))));
  const step = 10 ** -decimals;
  return signed(value, grouped((Math.round(size / step) * step).toFixed(0)));
}

/** Decimals at which an uncertainty shows two significant digits. */
export function decimalsOf(uncertainty: number): number {
  if (!(uncertainty > 0) || !Number.isFinite(uncertainty)) return 0;
  // 0.0996 would round to 0.100: the exponent is taken after rounding to two digits.
  const [, exponent = "0"] = uncertainty.toExponential(1).split("e");
  return 1 - Number(exponent);
}

const withUnit = (digits: string, unit: Unit): string =>
  unit.label === "" ? digits : `${digits}${THIN_SPACE}${unit.label}`;

const usable = (uncertainty: number | undefined): uncertainty is number =>
  uncertainty !== undefined && uncertainty > 0 && Number.isFinite(uncertainty);

/**
 * A value with its unit, never more digits than are known. For differences see `formatDifference`.
 *
 * @param value       In the unit.
 * @param unitId      Unit of both numbers; its label is shown.
 * @param uncertainty Standard uncertainty in the unit: its second digit sets the last digit shown. Without
 *                    it the decimals of a good shop instrument in that unit are shown.
 * @throws RangeError for an unknown unit or a value that is not finite.
 */
export function formatValue(value: number, unitId: string, uncertainty?: number): string {
  const unit = unitById(unitId);
  const decimals = usable(uncertainty) ? decimalsOf(uncertainty) : unit.decimals;
  return withUnit(formatNumber(value, decimals), unit);
}

/** "82.1 ± 1.3 psig": a value with what stands behind the sign, both to the second digit of the latter. */
export function formatWithUncertainty(value: number, unitId: string, uncertainty: number): string {
  if (!usable(uncertainty)) return formatValue(value, unitId);
  const decimals = decimalsOf(uncertainty);
  const digits = `${formatNumber(value, decimals)} ± ${formatNumber(uncertainty, decimals)}`;
  return withUnit(digits, unitById(unitId));
}

/**
 * A difference of two readings in that unit, or the uncertainty of one: "0.3 psi" for psig, "2.1 K" for °C.
 *
 * @param value       Difference in steps of the unit.
 * @param uncertainty As in `formatValue`.
 */
export function formatDifference(value: number, unitId: string, uncertainty?: number): string {
  const unit = unitById(unitId);
  const decimals = usable(uncertainty) ? decimalsOf(uncertainty) : unit.decimals;
  return withUnit(formatNumber(value, decimals), { ...unit, label: differenceLabel(unit) });
}

function differenceLabel(unit: Unit): string {
  if (unit.dimension === "temperature") return unit.id === "°F" ? "°F" : "K";
  if (unit.dimension !== "pressure") return unit.label;
  return unit.id.startsWith("psi") ? "psi" : unit.id.replace(/\(.*\)$/, "");
}

/** Pounds and ounces, the ounces to so many decimals: "5 lb 3.0 oz". */
function poundsAndOunces(pounds: number, decimals: number): string {
  const scale = 10 ** decimals;
  // Rounded as a whole before it is split, so that 15.96 oz never becomes "16.0 oz".
  const total = Math.round(Math.abs(pounds) * 16 * scale);
  const whole = Math.floor(total / (16 * scale));
  const rest = ((total - whole * 16 * scale) / scale).toFixed(decimals);
  const sign = pounds < 0 && total > 0 ? MINUS : "";
  return `${sign}${whole}${THIN_SPACE}lb ${rest}${THIN_SPACE}oz`;
}

/**
 * A quantity as it was said, all its digits kept: what the log shows of a reading.
 *
 * @param quantity Value and unit id.
 * @param options  `poundsAndOunces` writes a mass in lb as lb and oz, the ounces to one decimal.
 * @throws RangeError as `formatValue`.
 */
export function formatQuantity(
  quantity: Quantity,
  options: { readonly poundsAndOunces?: boolean } = {},
): string {
  const unit = unitById(quantity.unit);
  if (!Number.isFinite(quantity.value)) {
    throw new RangeError(`cannot write ${quantity.value} as a number`);
  }
  if (options.poundsAndOunces === true && unit.id === "lb" && Math.abs(quantity.value) < 1e9) {
    return poundsAndOunces(quantity.value, 1);
  }
  const digits = String(Math.abs(quantity.value));
  return withUnit(signed(quantity.value, digits.includes("e") ? digits : grouped(digits)), unit);
}
