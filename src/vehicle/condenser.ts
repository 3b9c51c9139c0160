import type { Circuit } from "./circuit.ts";
import { expansionFlow } from "./expansion.ts";
import {
  chiAt,
  liquidEnthalpyAt,
  temperatureAt,
  vapourEnthalpyAt,
  volumeAt,
  wetLiquidDensity,
  wetQuality,
  wetTemperature,
  wetVapourDensity,
} from "./pack/isobar.ts";
import { meanDensity } from "./zivi.ts";

/** Steps of enthalpy in which a blend condenses. */
const steps = 8;
/** Smallest difference to the air, K: below it the required area is held and the residual takes over. */
const pinchAt = 0.05;

/** Capacity rate of one zone against air that is partly breathed again, W/K of the whole face. */
function zoneRate(circuit: Circuit, UAr: number, loaded: number): number {
  const { UAa, Ca, rebreathed } = circuit.sys;
  const UA = 1 / (1 / UAa + 1 / (UAr * loaded));
  const eps = 1 - Math.exp(-UA / Ca);
  return (Ca * eps * (1 - rebreathed)) / (1 - rebreathed + rebreathed * eps);
}

function setRates(circuit: Circuit, m: number): void {
  const { sys, c } = circuit;
  const load = Math.min(4, Math.max(0.02, (m * (c.hd - c.hb)) / sys.Q0c));
  const loaded = Math.exp(sys.nc * Math.log(load));
  circuit.Csh = zoneRate(circuit, sys.UAsh, loaded);
  circuit.Ctp = zoneRate(circuit, sys.UAtp, loaded);
  circuit.Csc = zoneRate(circuit, sys.UAsc, loaded);
}

/**
 * Outlet enthalpy and flow from the coordinate y: the flow depends on the outlet through the
 * expansion device, and the subcooling on the flow through the flooded area.
 */
export function condenserOutlet(circuit: Circuit): void {
  const { y, c, sys } = circuit;
  if (circuit.regime === "gas") {
    circuit.hco = vapourEnthalpyAt(c, sys.Tci);
  } else if (y <= 0) {
    circuit.hco = y >= -1 ? c.hb - y * (c.hd - c.hb) : c.hd + 0.5 * (-y - 1) * (c.hd - c.hb);
  } else {
    floodedOutlet(circuit);
    return;
  }
  circuit.m = expansionFlow(circuit, circuit.hco);
  setRates(circuit, circuit.m);
}

/** θ − (1 − exp(−y·C_sc/(m·cp))) with θ = (T_b − T_out)/(T_b − T_ci); sets outlet and flow. */
function thetaError(circuit: Circuit, theta: number): number {
  const { c, sys, y } = circuit;
  const span = c.Tb - sys.Tci;
  const T = c.Tb - theta * span;
  circuit.hco = Math.min(c.hb, liquidEnthalpyAt(c, T));
  circuit.m = expansionFlow(circuit, circuit.hco);
  setRates(circuit, circuit.m);
  const dh = c.hb - circuit.hco;
  // A thin slice of subcooling: its heat capacity from a finite one.
  const cp =
    theta > 1e-4
      ? dh / (theta * span)
      : (c.hb - liquidEnthalpyAt(c, c.Tb - 1e-3 * span)) / (1e-3 * span);
  return theta - 1 + Math.exp((-y * circuit.Csc) / (circuit.m * cp));
}

const thetaTolerance = 1e-13;

function floodedOutlet(circuit: Circuit): void {
  const { c, sys } = circuit;
  if (c.Tb - sys.Tci < pinchAt) {
    circuit.hco = c.hb;
    circuit.m = expansionFlow(circuit, c.hb);
    setRates(circuit, circuit.m);
    return;
  }
  // The error rises with θ from below 0 at 0 to above 0 at 1: secant steps inside that bracket.
  let low = 0;
  let high = 1;
  let x1 = Math.min(0.999, Math.max(1e-6, circuit.theta));
  let f1 = thetaError(circuit, x1);
  if (f1 > 0) high = x1;
  else low = x1;
  let x2 = Math.min(0.9999, Math.max(1e-7, x1 - f1));
  for (let k = 0; k < 40; k++) {
    const f2 = thetaError(circuit, x2);
    if (f2 > 0) high = Math.min(high, x2);
    else low = Math.max(low, x2);
    const next = x2 - (f2 * (x2 - x1)) / (f2 - f1);
    if (Math.abs(f2) < thetaTolerance || high - low < thetaTolerance) break;
    x1 = x2;
    f1 = f2;
    x2 = next > low && next < high ? next : 0.5 * (low + high);
    if (x2 === x1) break;
  }
  circuit.theta = x2;
}

/**
 * Share of the condenser's area that the heat needs, and what it holds.
 *
 * Effectiveness-NTU, one stream at locally constant temperature; closed form in each zone. Every
 * segment meets the same air. After {@link condenserOutlet} and the compressor.
 *
 * Source: Kays and London, Compact Heat Exchangers (effectiveness); the march: common practice
 */
export function condense(circuit: Circuit): void {
  const { sys, c, m, hdis, hco, y } = circuit;
  circuit.pinch = 0;
  circuit.sumW = 0;
  circuit.sumRho = 0;
  if (hdis > c.hd) vapourZone(circuit, Math.max(c.hd, hco));
  const chiIn = Math.min(1, Math.max(0, chiAt(c, hdis)));
  const chiOut = Math.min(1, Math.max(0, chiAt(c, hco)));
  if (chiIn > chiOut) {
    if (c.pack.glide) glideZone(circuit, chiIn, chiOut);
    else {
      const dT = difference(circuit, c.Td - sys.Tci);
      const w = (m * (c.hd - c.hb) * (chiIn - chiOut)) / (circuit.Ctp * dT);
      addZone(circuit, w, meanDensity(chiOut, chiIn, c.rhoB, c.rhoD));
    }
  }
  const free = y > 0 && circuit.regime !== "gas" ? 1 - y : 1;
  circuit.W = circuit.sumW / free;
  const liquid = free < 1 ? (1 - free) / volumeAt(c, 0.5 * (c.hb + hco)) : 0;
  const mean = circuit.sumW > 0 ? circuit.sumRho / circuit.sumW : c.rhoD;
  circuit.Mc = sys.Vc * (free * mean + liquid);
}

function difference(circuit: Circuit, dT: number): number {
  if (dT >= pinchAt) return dT;
  circuit.pinch = Math.max(circuit.pinch, pinchAt - dT);
  return pinchAt;
}

function addZone(circuit: Circuit, w: number, rho: number): void {
  circuit.sumW += w;
  circuit.sumRho += w * rho;
}

function vapourZone(circuit: Circuit, hOut: number): void {
  const { sys, c, m, hdis } = circuit;
  const dT1 = difference(circuit, temperatureAt(c, hdis) - sys.Tci);
  const Tout = hOut > c.hd ? temperatureAt(c, hOut) : c.Td;
  // In the gas regime the outlet has come to the air's temperature: its area is not asked for.
  if (circuit.regime === "gas") {
    addZone(circuit, 1, 0.5 / volumeAt(c, hdis) + 0.5 / volumeAt(c, hOut));
    return;
  }
  const dT2 = difference(circuit, Tout - sys.Tci);
  const ratio = dT1 / dT2;
  const mean = Math.abs(ratio - 1) < 1e-6 ? dT1 : (dT1 - dT2) / Math.log(ratio);
  const w = (m * (hdis - hOut)) / (circuit.Csh * mean);
  addZone(circuit, w, 0.5 / volumeAt(c, hdis) + 0.5 / volumeAt(c, hOut));
}

function glideZone(circuit: Circuit, chiIn: number, chiOut: number): void {
  const { sys, c, m } = circuit;
  const dChi = (chiIn - chiOut) / steps;
  const dh = m * (c.hd - c.hb) * dChi;
  let T1 = wetTemperature(c, chiOut);
  let x1 = wetQuality(c, chiOut);
  for (let k = 1; k <= steps; k++) {
    const chi = chiOut + k * dChi;
    const T2 = wetTemperature(c, chi);
    const x2 = wetQuality(c, chi);
    const middle = chi - 0.5 * dChi;
    const dT = difference(circuit, 0.5 * (T1 + T2) - sys.Tci);
    const rho = meanDensity(x1, x2, wetLiquidDensity(c, middle), wetVapourDensity(c, middle));
    addZone(circuit, dh / (circuit.Ctp * dT), rho);
    T1 = T2;
    x1 = x2;
  }
}
