import { across, createWeights, place, type Weights } from "./interpolate.ts";
import {
  chiAt,
  createIsobar,
  enthalpyAtEntropy,
  entropyAt,
  type Isobar,
  setPressure,
  volumeAt,
} from "./isobar.ts";
import { type EvenAxis, FLUX_H, FLUX_P, type FluxSide, type FluxTable, type Pack } from "./pack.ts";

type WithoutFlux = Omit<Pack, "flux">;

/** Inlet pressures below this give no flow that matters, Pa. */
const lowestInlet = 6e4;

/**
 * The table of the largest mass flux of homogeneous equilibrium through a throat. Its nodes are worked out when they
 * are first read: a run of a vehicle reads a few dozen of them, and a valve's none.
 *
 * G(p₀, h₀) = max over p of √(2(h₀ − h(s₀, p)))/v(s₀, p).
 *
 * Source: Wallis, One-dimensional Two-phase Flow, 1969 (from memory)
 * Checked: test/published/vehicle-parts.test.ts, against a measured correlation
 */
export function buildFlux(lines: WithoutFlux): FluxTable {
  const from = Math.log(Math.max(lowestInlet, 2 * lines.pMin));
  const step = (Math.log(lines.pMax) - from) / (FLUX_P - 1);
  const axis: EvenAxis = { from, step, count: FLUX_P };
  // The isobars read everything but the flux, which is what is being made.
  const pack = lines as Pack;
  const [inlet, throat] = [createIsobar(pack), createIsobar(pack)];
  setPressure(inlet, lines.pMin);
  const hCold = inlet.hb;
  const side = (): FluxSide => ({
    lnG: new Float64Array(FLUX_P * FLUX_H).fill(NaN),
    ratio: new Float64Array(FLUX_P * FLUX_H),
    ready: new Uint8Array(FLUX_P * FLUX_H),
  });
  const [liquid, wet] = [side(), side()];
  const prepare = (of: FluxSide, row: number, column: number): void => {
    if (of.ready[row * FLUX_H + column] === 1) return;
    for (let i = row; i < row + 4; i++) {
      setPressure(inlet, Math.exp(from + i * step));
      const { hb, hd } = inlet;
      for (let k = column; k < column + 4; k++) {
        const node = i * FLUX_H + k;
        if (!Number.isNaN(of.lnG[node])) continue;
        const w = (k / (FLUX_H - 1)) ** 2;
        const h0 = of === liquid ? hb - w * (hb - hCold) : hb + w * (hd - hb);
        throatOf(inlet, throat, h0, of, node);
      }
    }
    of.ready[row * FLUX_H + column] = 1;
  };
  return { lnP: axis, liquid, wet, hCold, prepare };
}

const golden = 0.5 * (Math.sqrt(5) - 1);
const goldenSteps = 32;

/** Golden section in ln p of the throat. */
function throatOf(
  inlet: Isobar,
  throat: Isobar,
  h0: number,
  { lnG, ratio }: FluxSide,
  node: number,
): void {
  const s0 = entropyAt(inlet, h0);
  const G = (lnP: number): number => {
    setPressure(throat, Math.exp(lnP));
    const h = enthalpyAtEntropy(throat, s0, h0);
    return h < h0 ? Math.sqrt(2 * (h0 - h)) / volumeAt(throat, h) : 0;
  };
  let [low, high] = [Math.log(inlet.pack.pMin), Math.log(inlet.p)];
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)];
  let [Ga, Gb] = [G(a), G(b)];
  for (let k = 0; k < goldenSteps; k++) {
    if (Ga > Gb) {
      [high, b, Gb] = [b, a, Ga];
      a = high - golden * (high - low);
      Ga = G(a);
    } else {
      [low, a, Ga] = [a, b, Gb];
      b = low + golden * (high - low);
      Gb = G(b);
    }
  }
  lnG[node] = Math.log(Math.max(Ga, Gb));
  ratio[node] = Math.exp(0.5 * (low + high)) / inlet.p;
}

/** Mass flux, kg/(m² s), and critical pressure ratio of an inlet; owned by the caller. */
export interface CriticalFlux {
  G: number;
  ratio: number;
  readonly row: Weights;
  readonly column: Weights;
}

export const createCriticalFlux = (): CriticalFlux => ({
  G: 0,
  ratio: 0,
  row: createWeights(),
  column: createWeights(),
});

const unit: EvenAxis = { from: 0, step: 1 / (FLUX_H - 1), count: FLUX_H };

/** Reads the table at an inlet state: the isobar is the inlet's pressure. Superheated inlets count as an ideal nozzle. */
export function criticalFlux(isobar: Isobar, h: number, flux: CriticalFlux): void {
  const { pack } = isobar;
  const { lnP, liquid, wet, hCold } = pack.flux;
  const chi = chiAt(isobar, h);
  const below = chi < 0;
  const share = below ? (isobar.hb - h) / (isobar.hb - hCold) : Math.min(1, chi);
  place(lnP, Math.log(isobar.p), flux.row);
  place(unit, Math.sqrt(Math.min(1, share)), flux.column);
  const side = below ? liquid : wet;
  pack.flux.prepare(side, flux.row.i, flux.column.i);
  flux.G = Math.exp(across(side.lnG, FLUX_H, flux.row, flux.column));
  flux.ratio = across(side.ratio, FLUX_H, flux.row, flux.column);
  // A superheated inlet: flux of a gas at equal pressure falls with the root of its volume.
  if (chi > 1) flux.G /= Math.sqrt(volumeAt(isobar, h) * isobar.rhoD);
}
