import {
  CP,
  CV,
  DP_DRHO,
  DP_DT,
  evaluateProperties,
  fluid as fluidOf,
  type FluidId,
  H,
  P,
  type PureFluid,
  S,
  saturatedPhases,
  saturationAtP,
  saturationAtT,
} from "../../fluids/index.ts";
import { type PackSource, type SourceRow, SUPERHEAT, TWO_PHASE } from "./pack.ts";
import { emptyRow, extendVapour } from "./source-row.ts";

/** Source of a pure fluid: saturation expansions, and the equation for the superheated vapour. */
export function pureSource(id: FluidId): PackSource {
  const fluid = fluidOf(id);
  const { info, critical } = fluid;
  const lowest = saturationAtT(fluid, info.Tmin * 1.001);
  const at = saturationAtP(fluid, 3e5);
  const cpDew = at.kind === "saturated" ? saturatedPhases(fluid, at).vapour.cp : 5 * info.R;
  return {
    glide: false,
    M: info.M,
    Tmin: info.Tmin,
    Tmax: info.Tmax,
    pMin: lowest.kind === "saturated" ? lowest.p : 0,
    pMax: 0.92 * critical.p,
    ids: [id],
    sources: [`${id}: ${info.source}`],
    estimates: [],
    cpDew: cpDew / info.M,
    row: (p, dh) => pureRow(fluid, p, dh),
  };
}

function pureRow(fluid: PureFluid, p: number, dh: Float64Array): SourceRow | undefined {
  const at = saturationAtP(fluid, p);
  if (at.kind !== "saturated") return undefined;
  const { liquid, vapour } = saturatedPhases(fluid, at);
  const { M } = fluid.info;
  const row = emptyRow();
  for (let k = 0; k < TWO_PHASE; k++) {
    const chi = k / (TWO_PHASE - 1);
    row.T[k] = at.T;
    row.h[k] = (liquid.h + chi * (vapour.h - liquid.h)) / M;
    row.s[k] = (liquid.s + chi * (vapour.s - liquid.s)) / M;
    row.quality[k] = chi;
    row.rhoL[k] = at.rhoL * M;
    row.rhoV[k] = at.rhoV * M;
  }
  superheat(fluid, { p, T: at.T, rho: at.rhoV, hDew: vapour.h }, dh, row);
  return row;
}

const maxIterations = 25;

/** Newton's method in T and ρ at given p and h, from node to node. */
function superheat(
  fluid: PureFluid,
  start: { readonly p: number; readonly T: number; readonly rho: number; readonly hDew: number },
  dh: Float64Array,
  row: SourceRow,
): void {
  const { M } = fluid.info;
  const { out } = fluid.work;
  const { p, hDew } = start;
  let [T, rho] = [start.T, start.rho];
  for (let k = 0; k < SUPERHEAT; k++) {
    const target = hDew + dh[k] * M;
    let settled = false;
    for (let iteration = 0; iteration < maxIterations && !settled; iteration++) {
      evaluateProperties(fluid, T, rho, fluid.work);
      const [offP, offH] = [p - out[P], target - out[H]];
      const hT = out[CV] + out[DP_DT] / rho;
      const hRho = (out[DP_DRHO] - (T * out[DP_DT]) / rho) / rho;
      const determinant = out[DP_DRHO] * hT - out[DP_DT] * hRho;
      const stepT = (offH * out[DP_DRHO] - offP * hRho) / determinant;
      const stepRho = (hT * offP - out[DP_DT] * offH) / determinant;
      T += Math.max(-0.1 * T, Math.min(0.1 * T, stepT));
      rho += Math.max(-0.3 * rho, Math.min(0.3 * rho, stepRho));
      settled = Math.abs(stepT) < 1e-9 * T && Math.abs(stepRho) < 1e-9 * rho;
    }
    if (!settled) {
      extendVapour(row, dh, k);
      return;
    }
    evaluateProperties(fluid, T, rho, fluid.work);
    row.vT[k] = T;
    row.vS[k] = out[S] / M;
    row.vRho[k] = rho * M;
    if (k + 1 < SUPERHEAT) {
      const rise = ((dh[k + 1] - dh[k]) * M) / out[CP];
      rho *= T / (T + rise);
      T += rise;
    }
  }
}
