import { caloricState } from "../bulk/caloric.ts";
import type { Material } from "../bulk/material.ts";

/** A point of rest before a nozzle. Pa, J/kg, J/(kg K). */
export interface Stagnation {
  readonly p: number;
  readonly h: number;
  readonly s: number;
}

/** Pressures between rest and outlet that are tried first; the best one is refined. */
const COARSE = 16;
const FINE = 24;

/**
 * Highest mass flux through a nozzle from a state of rest, kg/(m2 s): homogeneous equilibrium, no losses.
 *
 * G = max over p of ρ(p, s0) √(2 (h0 − h(p, s0))), p from the outlet's pressure up. A liquid flashes on its way and
 * chokes; a vapour chokes as a real gas does. Where the maximum stands at the outlet the flow is not choked.
 *
 * @param outlet Pressure outside, Pa, below that of rest.
 * @returns      `undefined` if the equations know no state on the way.
 *
 * Limits: phases in equilibrium; liquid through a thin wall has no time to flash and flows up to Bernoulli's rate.
 * Source: homogeneous equilibrium model, textbooks of two-phase flow
 * Checked: hole-flow.test.ts
 */
export function equilibriumFlux(
  material: Material,
  { p, h, s }: Stagnation,
  outlet: number,
): number | undefined {
  const flux = (at: number): number => {
    const state = caloricState(material, at, "s", s);
    return state && h > state.h ? state.rho * Math.sqrt(2 * (h - state.h)) : 0;
  };
  const places = Array.from({ length: COARSE }, (_, i) => outlet + ((p - outlet) * i) / COARSE);
  const fluxes = places.map(flux);
  const best = fluxes.indexOf(Math.max(...fluxes));
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [places[Math.max(0, best - 1)] ?? outlet, places[best + 1] ?? p];
  for (let i = 0; i < FINE; i++) {
    const [left, right] = [b - golden * (b - a), a + golden * (b - a)];
    if (flux(left) < flux(right)) a = left;
    else b = right;
  }
  const most = Math.max(fluxes[best] ?? 0, flux((a + b) / 2));
  return most > 0 ? most : undefined;
}
