import { evaluateIdeal } from "../ideal.ts";
import { A00, A10, A20 } from "../residual-kernel.ts";
import { mixtureR, type Mixture } from "./mixture.ts";
import type { PhaseWork } from "./mixture-work.ts";

/**
 * Ideal-gas part of every component at a temperature, each with its own reducing constants.
 *
 * Cost: some transcendental functions a component; it depends on T alone.
 */
export function evaluateIdealParts(mix: Mixture, phase: PhaseWork, T: number): void {
  const { ideal, ideal3 } = phase;
  for (let i = 0; i < mix.n; i++) {
    const { ideal: model, Tr } = mix.fluids[i];
    evaluateIdeal(model, Tr / T, ideal3);
    ideal[3 * i] = ideal3[0];
    ideal[3 * i + 1] = ideal3[1];
    ideal[3 * i + 2] = ideal3[2];
  }
}

/**
 * Enthalpy, entropy, heat capacities and speed of sound of a phase.
 *
 * After `evaluatePhase` and {@link evaluateIdealParts}. Results: h, s, cv, cp, MW2 of the phase;
 * w = √(MW2/M). The zero of h and s is that of the pure fluids.
 *
 * Source: Kunz and Wagner, J. Chem. Eng. Data 57 (2012) 3032, table 8
 */
export function evaluateCaloric(mix: Mixture, phase: PhaseWork): void {
  const { n, fluids } = mix;
  const { x, ideal, A, T, rho, Z, D, slopeT } = phase;
  let internal = mixtureR * A[A10];
  let entropy = mixtureR * (A[A10] - A[A00]);
  let cv = -mixtureR * A[A20];
  for (let i = 0; i < n; i++) {
    if (x[i] === 0) continue;
    const { R, rhor } = fluids[i];
    const share = x[i] * R;
    internal += share * ideal[3 * i + 1];
    entropy += share * (ideal[3 * i + 1] - ideal[3 * i] - Math.log((x[i] * rho) / rhor));
    cv -= share * ideal[3 * i + 2];
  }
  const push = mixtureR * slopeT * slopeT;
  phase.h = T * (internal + mixtureR * Z);
  phase.s = entropy;
  phase.cv = cv;
  phase.cp = cv + push / D;
  phase.MW2 = mixtureR * T * (D + push / cv);
}

/**
 * Partial molar enthalpies and entropies, for Newton's method.
 *
 * After {@link evaluateCaloric} and `evaluateFugacityDerivatives`. The gas constants of the
 * components' equations differ from that of mixtures by 1e-6; in sBar that is left out.
 */
export function evaluatePartialCaloric(mix: Mixture, phase: PhaseWork): void {
  const { n, fluids } = mix;
  const { x, ideal, T, rho, fT, psi, hBar, sBar } = phase;
  for (let i = 0; i < n; i++) {
    const { R, rhor } = fluids[i];
    const internal = R * ideal[3 * i + 1];
    hBar[i] = T * (internal + mixtureR * (1 - fT[i]));
    const mixing = x[i] === 0 ? 0 : Math.log((x[i] * rho) / rhor);
    sBar[i] = internal - R * (ideal[3 * i] + mixing) - mixtureR * (fT[i] + psi[i]);
  }
}
