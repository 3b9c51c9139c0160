import type { Circuit } from "./circuit.ts";
import { criticalFlux, type CriticalFlux } from "./pack/critical-flux.ts";
import { chiAt, dewPressureAt, type Isobar, volumeAt, wetQuality } from "./pack/isobar.ts";
import type { System } from "./system.ts";

/** Flow is never quite zero: its logarithm is wanted. */
const least = 1e-7;

/** Flow coefficients of an orifice. */
export type FlowLaw = Pick<System, "Cd" | "flash" | "flashX" | "pnc">;

/**
 * Mass flux through an orifice, kg/(m² s): homogeneous equilibrium with delayed flashing.
 *
 * G = C_d·√(G_HEM² + 2ρ(ε·p_c·exp(−x/x₀) + p_nc(1 − x))), less when the throat is not choked.
 *
 * @param inlet Isobar of the inlet.
 * @param h     Enthalpy there.
 * @param pOut  Pressure behind the orifice.
 *
 * Source: homogeneous equilibrium: Wallis 1969; the added term fitted to Payne and O'Neal 2004
 */
export function orificeFlux(
  law: FlowLaw,
  inlet: Isobar,
  h: number,
  pOut: number,
  flux: CriticalFlux,
): number {
  criticalFlux(inlet, h, flux);
  const chi = chiAt(inlet, h);
  const x = chi <= 0 ? 0 : chi >= 1 ? 1 : wetQuality(inlet, chi);
  const rho = chi <= 0 ? 1 / volumeAt(inlet, h) : inlet.rhoB;
  const late = law.flash * inlet.p * Math.exp(-x / law.flashX) + law.pnc * (1 - x);
  const G = law.Cd * Math.sqrt(flux.G * flux.G + 2 * rho * late);
  const ratio = pOut / (inlet.p + law.pnc);
  const over = (ratio - flux.ratio) / (1 - flux.ratio);
  if (over <= 0) return G;
  return over >= 1 ? 0 : G * Math.sqrt(1 - over * over);
}

/** Flow through the expansion device with an outlet enthalpy of the condenser, kg/s. */
export function expansionFlow(circuit: Circuit, h: number): number {
  const { sys } = circuit;
  const area = sys.orifice ? sys.area : sys.area * circuit.a;
  return Math.max(least, area * orificeFlux(sys, circuit.c, h, circuit.ps, circuit.flux));
}

/** Temperature by which a wet outlet lies below the dew point for the bulb, per chi, K: keeps the law falling. */
const bulbSlope = 20;

/** Opening that a thermostatic valve takes: bulb against evaporator and spring. */
export function valveLaw(circuit: Circuit): number {
  const { sys, e, heo, Teo, pe } = circuit;
  const chi = chiAt(e, heo);
  const T = chi < 1 ? e.Td - bulbSlope * (1 - chi) : Teo;
  const pBulb = dewPressureAt(sys.bulb, T, circuit.weights);
  const opening = (pBulb - pe - sys.spring) / sys.aRange;
  return Math.min(1, Math.max(sys.aMin, opening));
}
