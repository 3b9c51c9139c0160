import type { Circuit, Regime } from "./circuit.ts";
import { saturatedRatio } from "./moist.ts";
import { dewPressureAt, setPressure } from "./pack/isobar.ts";
import { enterRegime } from "./settle.ts";
import { returnFrom } from "./surroundings.ts";
import type { System } from "./system.ts";

/** A place to begin from: condensing excess over the air, K, duty, condenser outlet, valve opening. */
export interface Guess {
  readonly regime: Regime;
  readonly excess: number;
  /** Duty; `full` at a suction of 4 °C. */
  readonly duty: number | "full";
  readonly y: number;
  readonly a: number;
}

const balanced: readonly Guess[] = [
  { regime: "balanced", excess: 16, duty: 0.7, y: 0.05, a: 0.4 },
  { regime: "balanced", excess: 22, duty: "full", y: 0.05, a: 0.5 },
  { regime: "balanced", excess: 10, duty: 0.25, y: 0.02, a: 0.2 },
];
const starved: readonly Guess[] = [
  { regime: "starved", excess: 12, duty: 0.5, y: -0.08, a: 0.8 },
  { regime: "starved", excess: 12, duty: 0.8, y: -0.01, a: 0.6 },
];
const flooded: readonly Guess[] = [
  { regime: "flooded", excess: 20, duty: 0.7, y: 0.3, a: 0.4 },
  { regime: "flooded", excess: 26, duty: "full", y: 0.5, a: 0.5 },
];

/** Guesses for a fill, the likely regime first: by the label charge's share of equal liquid volume. */
export function guessesFor(sys: System, labelCharge: number): readonly Guess[] {
  const liquid = (pack: System["pack"]): number => pack.lRho[pack.lRho.length >> 1];
  const share = (sys.charge / labelCharge) * (liquid(sys.bulb) / liquid(sys.pack));
  if (share < 0.75) return [...starved, ...balanced, ...flooded];
  if (share > 1.35) return [...flooded, ...balanced, ...starved];
  return [...balanced, ...starved, ...flooded];
}

/** Air at the vent before anything is known: K below ambient. */
const ventBelow = 18;

/** Sets the unknowns of a circuit to a guess. */
export function startFrom(circuit: Circuit, guess: Guess): void {
  const { sys, c, weights } = circuit;
  circuit.y = guess.y;
  circuit.a = guess.a;
  enterRegime(circuit, guess.regime);
  const pc = dewPressureAt(c.pack, sys.Tci + guess.excess, weights);
  circuit.lnPc = Math.log(Math.min(0.97 * c.pack.pMax, Math.max(1.1 * c.pack.pMin, pc)));
  setPressure(c, Math.exp(circuit.lnPc));
  // A blend condenses between bubble and dew point: the excess is meant at its middle.
  const middle = 0.5 * (c.Tb - c.Td);
  if (middle < 0) {
    const shifted = dewPressureAt(c.pack, sys.Tci + guess.excess - middle, weights);
    circuit.lnPc = Math.log(Math.min(0.97 * c.pack.pMax, shifted));
  }
  if (guess.duty === "full") {
    const ps = dewPressureAt(c.pack, Math.min(277, sys.Tamb - 12), weights);
    circuit.d = Math.log(Math.max(1.02, Math.min(3, ps / sys.pSet)));
  } else circuit.d = Math.log(guess.duty);
  startReturn(circuit);
}

function startReturn(circuit: Circuit): void {
  const { sys, weights } = circuit;
  const Tvent = sys.Tamb - ventBelow;
  const saturated = saturatedRatio(Tvent, sys.pAir, weights);
  returnFrom(sys, Tvent, Math.min(sys.Wamb, saturated), circuit, saturated);
  circuit.Tret = circuit.TretLaw;
  circuit.Wret = circuit.WretLaw;
}
