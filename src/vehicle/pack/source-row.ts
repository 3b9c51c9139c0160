import { SUPERHEAT, type SourceRow, TWO_PHASE } from "./pack.ts";

/** An empty row. */
export function emptyRow(): SourceRow {
  const wet = (): Float64Array => new Float64Array(TWO_PHASE);
  const dry = (): Float64Array => new Float64Array(SUPERHEAT);
  return {
    T: wet(),
    s: wet(),
    h: wet(),
    quality: wet(),
    rhoL: wet(),
    rhoV: wet(),
    vT: dry(),
    vS: dry(),
    vRho: dry(),
  };
}

/**
 * Continues a superheat row whose equation gave no more states, from node `from` on: constant heat
 * capacity and an ideal gas. Reached only far above the temperatures of a running system.
 */
export function extendVapour(row: SourceRow, dh: Float64Array, from: number): void {
  const { vT, vS, vRho } = row;
  const back = Math.max(1, from - 1);
  const cp = (dh[back] - dh[back - 1]) / (vT[back] - vT[back - 1]);
  for (let k = from; k < SUPERHEAT; k++) {
    const step = dh[k] - dh[k - 1];
    vT[k] = vT[k - 1] + step / cp;
    vS[k] = vS[k - 1] + (2 * step) / (vT[k] + vT[k - 1]);
    vRho[k] = (vRho[k - 1] * vT[k - 1]) / vT[k];
  }
}
