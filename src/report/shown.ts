import {
  formatDifference,
  formatNumber,
  formatValue,
  formatWithUncertainty,
  fromSI,
  MINUS,
  THIN_SPACE,
  unitById,
  unitSize,
} from "../units/index.ts";
import type { Measured } from "../trial/index.ts";

/** Standard uncertainties to half-widths of 95 % intervals (normal distribution; GUM annex G, table G.1). */
export const COVERAGE_95 = 1.96;

/** How one quantity is shown: SI goes in, numbers and texts in the reader's unit come out. */
export interface Shown {
  readonly unit: string;
  /** Label of the unit, as behind a number. */
  readonly label: string;
  readonly value: (si: number) => number;
  /** "82.1 psig", to the digits that the standard uncertainty (SI) leaves. */
  readonly text: (si: number, u?: number) => string;
  /** "82.1 ± 1.3 psig": half-width of the 95 % interval behind the sign. */
  readonly pair: (measured: Measured) => string;
}

/**
 * A quantity in one unit.
 *
 * @param unitId     A unit of the table.
 * @param atmosphere Local air pressure, Pa; needed by gauge and vacuum units only.
 */
export function shownIn(unitId: string, atmosphere?: number): Shown {
  const value = (si: number): number => fromSI(si, unitId, atmosphere);
  const size = unitSize(unitId);
  return {
    unit: unitId,
    label: unitById(unitId).label,
    value,
    text: (si, u) =>
      formatValue(value(si), unitId, u === undefined ? undefined : (COVERAGE_95 * u) / size),
    pair: ({ value: si, u }) => formatWithUncertainty(value(si), unitId, (COVERAGE_95 * u) / size),
  };
}

/** A difference in steps of a unit: no zero, no local air, always a sign. */
export function shownDifference(unitId: string): Shown {
  const size = unitSize(unitId);
  const label = formatDifference(0, unitId).replace(/^[\d.,]+\s*/u, "");
  const text = (si: number, u?: number): string =>
    plus(
      si,
      formatDifference(si / size, unitId, u === undefined ? undefined : (COVERAGE_95 * u) / size),
    );
  return {
    unit: unitId,
    label,
    value: (si) => si / size,
    text,
    pair: ({ value: si, u }) => {
      if (!(u > 0)) return text(si);
      const half = (COVERAGE_95 * u) / size;
      const behind = formatDifference(half, unitId, half);
      return `${text(si, u).replace(/\s\S+$/u, "")} ± ${behind}`;
    },
  };
}

/** A plus before what has no minus; nothing before zero. */
const plus = (value: number, text: string): string =>
  value > 0 && /[1-9]/.test(text) && !text.startsWith(MINUS) ? `+${text}` : text;

/** Decimals that tell neighbouring ticks apart. */
export const decimalsOfStep = (step: number): number =>
  step > 0 ? Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) : 0;

/** Labels of an axis: equal decimals, no more than the step needs. */
export function tickTexts(ticks: readonly number[]): string[] {
  const [first = 0, second = first + 1] = ticks;
  const decimals = decimalsOfStep(Math.abs(second - first));
  return ticks.map((tick) => formatNumber(tick, decimals));
}

export { formatNumber, THIN_SPACE };
