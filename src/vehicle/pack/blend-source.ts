import {
  boilingLine,
  createMixtureWork,
  dewAtP,
  type Mixture,
  mixture,
  type MixtureWork,
  vapourLine,
} from "../../fluids/index.ts";
import { type Composition, molar } from "./composition.ts";
import { type PackSource, type SourceRow, SUPERHEAT, TWO_PHASE } from "./pack.ts";
import { emptyRow, extendVapour } from "./source-row.ts";

/** Source of a blend: the mixture model. */
export function blendSource(composition: Composition): PackSource {
  const mix = mixture(composition.ids);
  const { z, M } = molar(composition);
  const work = createMixtureWork(mix);
  const dew = dewAtP(mix, z, 3e5, work);
  const vapour = dew.kind === "state" ? dew.phases[1] : undefined;
  const pMax = mix.fluids.reduce((sum, each, i) => sum + z[i] * each.critical.p, 0);
  return {
    glide: true,
    M,
    Tmin: mix.limits.Tmin,
    Tmax: mix.limits.Tmax,
    pMin: 0,
    pMax: 0.92 * pMax,
    ids: composition.ids,
    sources: [
      ...mix.fluids.map(({ info }) => `${info.id}: ${info.source}`),
      ...mix.sources.map((source) => `binary parameters: ${source}`),
      "mixture model: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032",
    ],
    estimates: mix.estimates.map(({ pair }) => pair.join("/")),
    cpDew: (vapour?.cp ?? 40) / M,
    row: (p, dh) => blendRow(mix, { z, M, work }, p, dh),
  };
}

function blendRow(
  mix: Mixture,
  { z, M, work }: { readonly z: readonly number[]; readonly M: number; readonly work: MixtureWork },
  p: number,
  dh: Float64Array,
): SourceRow | undefined {
  const states = boilingLine(mix, z, p, TWO_PHASE - 1, work);
  if (!("length" in states)) return undefined;
  const row = emptyRow();
  for (const [k, state] of states.entries()) {
    const [liquid, vapour] = state.phases;
    row.T[k] = state.T;
    row.h[k] = state.h / M;
    row.s[k] = state.s / M;
    row.quality[k] = (state.beta * vapour.M) / M;
    row.rhoL[k] = liquid.rho * liquid.M;
    row.rhoV[k] = vapour.rho * vapour.M;
  }
  const dew = states[TWO_PHASE - 1];
  const h = Array.from(dh, (each) => dew.h + each * M);
  const points = vapourLine(mix, z, { p, T: dew.T, h }, work);
  if (points.length < 3) return undefined;
  for (const [k, point] of points.entries()) {
    row.vT[k] = point.T;
    row.vS[k] = point.s / M;
    row.vRho[k] = point.rho * M;
  }
  if (points.length < SUPERHEAT) extendVapour(row, dh, points.length);
  return row;
}
