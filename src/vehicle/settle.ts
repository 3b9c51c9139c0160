import type { Circuit, Regime } from "./circuit.ts";
import { newtonCircuit, type NewtonWork } from "./newton.ts";

/** Of the charge, and of enthalpy or area fractions: less is rounding. */
const slack = 1e-7;
const switches = 6;

/** The regime that a solved circuit belongs to. */
export function fittingRegime(circuit: Circuit): Regime {
  const { regime, charge, M, mMax, gap, c, sys } = circuit;
  switch (regime) {
    case "balanced":
      if (charge < M * (1 - slack)) return "starved";
      return charge > (M + mMax) * (1 + slack) ? "flooded" : "balanced";
    case "starved":
      return gap > slack ? "balanced" : "starved";
    case "flooded":
      return gap < -slack ? "balanced" : "flooded";
    case "gas":
      return c.Td > sys.Tci + slack ? "starved" : "gas";
  }
}

/** Puts the unknowns where a regime can begin. */
export function enterRegime(circuit: Circuit, regime: Regime): void {
  circuit.regime = regime;
  const { sys } = circuit;
  if (regime === "balanced" && !sys.orifice) circuit.y = sys.fsc;
}

/**
 * Newton's method, then the regime is checked and changed until both fit.
 *
 * @returns Whether a steady state of a fitting regime was found.
 */
export function settle(circuit: Circuit, work: NewtonWork, limit?: number): boolean {
  for (let k = 0; k < switches; k++) {
    if (!newtonCircuit(circuit, work, limit)) return false;
    const next = fittingRegime(circuit);
    if (next === circuit.regime) return true;
    enterRegime(circuit, next);
  }
  return false;
}
