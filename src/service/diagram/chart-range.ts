/** What a chart shows. K, Pa. */
export interface ChartRange {
  readonly T: { readonly from: number; readonly to: number };
  readonly p: { readonly from: number; readonly to: number };
}

/** Coldest and hottest temperature of a chart, in critical temperatures: R134a from −67 to 157 °C. */
export const COLDEST = 0.55;
export const HOTTEST = 1.15;
/** Highest pressure, in critical pressures. */
export const HIGHEST = 1.5;

const STEPS = [5, 10, 20, 25, 50, 100];
const MOST_ISOTHERMS = 15;
const ICE = 273.15;

/** Round temperatures in °C within a range, few enough to read, K. */
export function isothermsWithin({ from, to }: ChartRange["T"]): readonly number[] {
  const step = STEPS.find((each) => (to - from) / each <= MOST_ISOTHERMS) ?? 200;
  const first = Math.ceil((from - ICE) / step);
  const last = Math.floor((to - ICE) / step);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => ICE + (first + i) * step);
}

/** Pressures from high to low, equally far apart in ln p, both ends included. */
export function pressuresDown(high: number, low: number, count: number): readonly number[] {
  const ratio = Math.log(low / high);
  return Array.from({ length: count }, (_, i) => high * Math.exp((ratio * i) / (count - 1)));
}
