import type { Circuit } from "./circuit.ts";
import {
  airCp,
  airEnthalpy,
  airTemperature,
  saturatedEnthalpy,
  saturatedRatio,
  saturatedTemperature,
} from "./moist.ts";
import {
  chiAt,
  setPressure,
  temperatureAt,
  vapourEnthalpyAt,
  volumeAt,
  wetLiquidDensity,
  wetQuality,
  wetTemperature,
  wetVapourDensity,
} from "./pack/isobar.ts";
import { returnFrom } from "./surroundings.ts";
import { meanDensity } from "./zivi.ts";

/** Steps of enthalpy in which a blend boils. */
const steps = 6;
/** A wet coil counts as wholly wet from this excess over the dry flux on. */
const whollyWet = 0.05;
/** Least heat flux, W: a march must end. */
const leastFlux = 1e-3;

/**
 * Boils and superheats the refrigerant against moist air: outlet of both sides, vent.
 *
 * Each step is dry or wet, whichever takes more heat; the wet one by enthalpy potential. The area
 * left after boiling superheats dry.
 *
 * Source: Braun, Klein and Mitchell, ASHRAE Trans. 95(2) 1989 (effectiveness of wet coils)
 */
export function evaporate(circuit: Circuit): void {
  const { sys, s, e, m } = circuit;
  inletAir(circuit);
  circuit.pe = Math.min(
    0.97 * e.pack.pMax,
    circuit.ps + (sys.Ks * m * m) / s.rhoD,
    0.5 * (circuit.ps + Math.max(circuit.ps, circuit.pc)),
  );
  setPressure(e, circuit.pe);
  circuit.sumW = 0;
  circuit.wetness = 0;
  circuit.sumRho = 0;
  circuit.wet = 0;
  circuit.Tsurface = circuit.Tai;
  circuit.Wao = 0;
  const chiIn = chiAt(e, circuit.hco);
  circuit.heo = circuit.hco;
  if (chiIn < 1) boil(circuit, chiIn);
  circuit.wet = circuit.sumW;
  const rest = 1 - circuit.sumW;
  if (rest > 0) superheat(circuit, rest);
  circuit.Teo = temperatureAt(e, circuit.heo);
  circuit.Qe = m * (circuit.heo - circuit.hco);
  circuit.hao = circuit.hai - circuit.Qe / sys.ma;
  circuit.Tao = airTemperature(circuit.hao, circuit.Wao);
  circuit.rhoE = circuit.sumRho;
  const duct = sys.UAduct / (sys.ma * airCp(circuit.Wao));
  circuit.Tvent = circuit.Tao + (1 - Math.exp(-duct)) * (sys.Tduct - circuit.Tao);
  const saturated =
    sys.returnKnown === 1 ? saturatedRatio(circuit.Tvent, sys.pAir, circuit.weights) : 0;
  returnFrom(sys, circuit.Tvent, circuit.Wao, circuit, saturated);
}

function inletAir(circuit: Circuit): void {
  const { sys } = circuit;
  const r = sys.recirculation;
  circuit.Wai = r * circuit.Wret + (1 - r) * sys.Wamb;
  circuit.Tai = r * circuit.Tret + (1 - r) * sys.Tamb + sys.blowerRise;
  circuit.hai = airEnthalpy(circuit.Tai, circuit.Wai);
}

/** Marches from the inlet to the dew point or to the end of the coil. */
function boil(circuit: Circuit, chiIn: number): void {
  const { sys, e, m } = circuit;
  const count = e.pack.glide ? steps : 1;
  const latent = e.hd - e.hb;
  const load = Math.min(4, Math.max(0.02, (m * latent) / sys.Q0e));
  const UAi = sys.UAi * Math.exp(sys.ne * Math.log(load));
  const from = Math.max(0, chiIn);
  let h = circuit.hco;
  let T1 = wetTemperature(e, from);
  let chi1 = from;
  for (let k = 1; k <= count; k++) {
    const chi2 = from + ((1 - from) * k) / count;
    const T2 = wetTemperature(e, chi2);
    const target = e.hb + chi2 * latent;
    const flux = fluxOf(circuit, 0.5 * (T1 + T2), UAi);
    const need = (m * (target - h)) / flux;
    const left = 1 - circuit.sumW;
    const w = Math.min(need, left);
    const end = need > left ? h + (flux * left) / m : target;
    airOf(circuit, w, flux);
    const chiEnd = need > left ? Math.max(0, chiAt(e, end)) : chi2;
    addBoiling(circuit, w, chi1, chiEnd);
    h = end;
    if (need > left) break;
    T1 = T2;
    chi1 = chi2;
  }
  circuit.heo = h;
}

function addBoiling(circuit: Circuit, w: number, chi1: number, chi2: number): void {
  const { e } = circuit;
  const middle = 0.5 * (chi1 + chi2);
  const rho = meanDensity(
    wetQuality(e, chi1),
    wetQuality(e, chi2),
    wetLiquidDensity(e, middle),
    wetVapourDensity(e, middle),
  );
  circuit.sumW += w;
  circuit.sumRho += w * rho;
}

/** Heat flux of the whole coil at a refrigerant temperature, W; sets `wetness`. */
function fluxOf(circuit: Circuit, Tr: number, UAi: number): number {
  const { sys, Tai, Wai, hai, weights } = circuit;
  const cp = airCp(Wai);
  const { ma, UAo, pAir } = sys;
  if (Tr >= Tai) {
    circuit.wetness = 0;
    return leastFlux;
  }
  const dry = ma * cp * (1 - Math.exp(-1 / ((1 / UAo + 1 / UAi) * ma * cp))) * (Tai - Tr);
  const hr = saturatedEnthalpy(Tr, pAir, weights);
  const b = (saturatedEnthalpy(Tr + 5, pAir, weights) - hr) / 5;
  const wet = ma * (1 - Math.exp(-1 / ((cp / UAo + b / UAi) * ma))) * (hai - hr);
  // How wet the step is: 0 dry, 1 wet, a short ramp between so that the air's outlet has no jump.
  circuit.wetness = Math.min(1, Math.max(0, (wet / dry - 1) / whollyWet));
  return Math.max(leastFlux, dry, wet);
}

/** Adds the humidity of the air that leaves a share of the coil with a heat flux. */
function airOf(circuit: Circuit, w: number, flux: number): void {
  const { sys, hai, Tai, Wai, weights } = circuit;
  const h = hai - flux / sys.ma;
  const wetness = circuit.wetness;
  let W = Wai;
  if (wetness > 0) {
    const cp = airCp(Wai);
    const k = Math.exp(-sys.UAo / (sys.ma * cp));
    const hSurface = hai - (hai - h) / (1 - k);
    const T = saturatedTemperature(hSurface, sys.pAir, Tai - 15, weights);
    const Tout = T + (Tai - T) * k;
    const Wwet = (h - airEnthalpy(Tout, 0)) / (airEnthalpy(Tout, 1) - airEnthalpy(Tout, 0));
    W += wetness * (Math.max(0, Math.min(Wai, Wwet)) - Wai);
    circuit.Tsurface = Math.min(circuit.Tsurface, T);
  }
  circuit.Wao += w * W;
}

function superheat(circuit: Circuit, rest: number): void {
  const { sys, e, m, Tai, Wai } = circuit;
  const h0 = circuit.heo;
  const T0 = Math.max(e.Td, temperatureAt(e, h0));
  circuit.Wao += rest * Wai;
  if (Tai > T0 + 1e-9) {
    const capacity = sys.ma * airCp(Wai);
    const UA = 1 / (1 / sys.UAo + 1 / sys.UAiSh);
    const eps = 1 - Math.exp(-UA / capacity);
    const cp = (vapourEnthalpyAt(e, Tai) - h0) / (Tai - T0);
    const left = Math.exp((-rest * capacity * eps) / (m * cp));
    circuit.heo = h0 + cp * (Tai - T0) * (1 - left);
  }
  const rho = 0.5 / volumeAt(e, h0) + 0.5 / volumeAt(e, circuit.heo);
  circuit.sumW += rest;
  circuit.sumRho += rest * rho;
}
