import { solveDensity } from "./density.ts";
import { evaluateProperties, H, S } from "./properties.ts";
import type { PureFluid, SupercriticalGuide } from "./pure-fluid.ts";

const rows = 20;
const columns = 64;

/**
 * Computes isobars above the critical pressure.
 *
 * Cost: some 1300 density searches, about 2 ms; done once a fluid.
 */
export function supercriticalGuide(fluid: PureFluid): SupercriticalGuide {
  const { info, critical, work, rhor } = fluid;
  const lnPFrom = Math.log(critical.p);
  const lnPStep = (Math.log(info.pmax) - lnPFrom) / (rows - 1);
  const size = rows * columns;
  const guide = {
    lnPFrom,
    lnPStep,
    rows,
    columns,
    T: new Float64Array(size),
    h: new Float64Array(size),
    s: new Float64Array(size),
    rho: new Float64Array(size),
  };
  for (let j = 0; j < rows; j++) {
    const p = Math.min(info.pmax, Math.exp(lnPFrom + j * lnPStep));
    for (let k = 0; k < columns; k++) {
      const T = columnTemperature(fluid, k / (columns - 1));
      solveDensity(fluid, T, p, work);
      const at = j * columns + k;
      guide.T[at] = T;
      guide.rho[at] = work.delta * rhor;
      evaluateProperties(fluid, T, guide.rho[at], work);
      guide.h[at] = work.out[H];
      guide.s[at] = work.out[S];
    }
  }
  return guide;
}

/** Even steps to 0.9 Tc, dense around the critical temperature, wide beyond. */
function columnTemperature({ info, critical }: PureFluid, part: number): number {
  const [low, high] = [0.9 * critical.T, Math.min(1.3 * critical.T, 0.9 * info.Tmax)];
  const [first, last] = [0.3, 0.75];
  if (low <= info.Tmin || high <= low) return info.Tmin + part * (info.Tmax - info.Tmin);
  if (part < first) return info.Tmin + (part / first) * (low - info.Tmin);
  if (part > last) return high + ((part - last) / (1 - last)) * (info.Tmax - high);
  return low + ((part - first) / (last - first)) * (high - low);
}

/** Temperature, K, and density, mol/m³, near a state above the critical pressure. */
export function startAboveCritical(
  guide: SupercriticalGuide,
  lnP: number,
  value: number,
  quantity: "h" | "s",
): { readonly T: number; readonly rho: number } {
  const place = (lnP - guide.lnPFrom) / guide.lnPStep;
  const row = Math.max(0, Math.min(guide.rows - 2, Math.floor(place)));
  const share = place - row;
  const table = guide[quantity];
  const [below, above] = [row * guide.columns, (row + 1) * guide.columns];
  const atBelow = position(table, below, guide.columns, value);
  const atAbove = position(table, above, guide.columns, value);
  const mix = (column: Float64Array): number =>
    (1 - share) * between(column, atBelow) + share * between(column, atAbove);
  return { T: mix(guide.T), rho: mix(guide.rho) };
}

/** Fractional index of a value in one row of an ascending table, held inside the row. */
function position(table: Float64Array, start: number, count: number, value: number): number {
  let low = start;
  let high = start + count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (value < table[middle]) high = middle;
    else low = middle;
  }
  const share = (value - table[low]) / (table[high] - table[low]);
  return low + Math.max(0, Math.min(0.999999, share));
}

function between(column: Float64Array, position: number): number {
  const k = Math.floor(position);
  return column[k] + (position - k) * (column[k + 1] - column[k]);
}
