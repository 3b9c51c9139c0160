import { bracketCircuit } from "./brackets.ts";
import { type Circuit, createCircuit, type Regime } from "./circuit.ts";
import { followOutlet } from "./continuation.ts";
import { guessesFor, startFrom } from "./guesses.ts";
import { highestSetting } from "./evaluate.ts";
import type { NewtonWork } from "./newton.ts";
import { createIsobar, setPressure } from "./pack/isobar.ts";
import { enterRegime, settle } from "./settle.ts";
import type { System } from "./system.ts";

/** Where a solved circuit stands, to begin the next solve from. */
export interface Start {
  readonly regime: Regime;
  readonly d: number;
  readonly lnPc: number;
  readonly y: number;
  readonly a: number;
  readonly Tret: number;
  readonly Wret: number;
}

/** Why a system does not run steadily. */
export type StopReason =
  /** The resting pressure is below that at which the control lets it start. */
  | "resting-pressure-too-low"
  /** The air to the evaporator is no warmer than the coil would be held. */
  | "no-load"
  /** No balance below the high-pressure switch. */
  | "high-pressure-trip"
  /** No balance below the end of the property table, which lies below the switch. */
  | "above-property-table"
  /** The evaporator boils too little of what flows: liquid would reach the compressor. */
  | "liquid-to-compressor";

export type UnresolvedReason = "not-balanced" | "search-budget";

export type SolveEnd =
  | { readonly kind: "running"; readonly by: "warm" | "guess" | "continuation" | "brackets" }
  | { readonly kind: "stopped"; readonly reason: StopReason }
  | { readonly kind: "unresolved"; readonly reason: UnresolvedReason };

export interface Solved {
  readonly circuit: Circuit;
  readonly end: SolveEnd;
}

/** The air must be warmer than the coil is held by this, K. */
const leastLoad = 0.5;
/** Room between the air and the top of the table, K: less condenses nothing. */
const leastRoom = 2;
/** Evaluations that a search by brackets may take: some tenths of a second at most. */
const bracketBudget = 3_000;
const returnPasses = 12;
const shortNewton = 16;
/** The suction's lower end is a stop of the model, not of nature: a solution on it is none. */
const wetSuction = 1e-6;

/**
 * Finds the steady state of a system.
 *
 * Newton's method from a given start or from guesses, then along the charge, then by nested
 * brackets. What cannot be resolved is said with its reason.
 *
 * @param labelCharge Of the vehicle, kg: tells which guess comes first.
 */
export function solveSystem(
  sys: System,
  labelCharge: number,
  work: NewtonWork,
  start?: Start,
): Solved {
  const circuit = createCircuit(sys);
  const stopped = (reason: StopReason): Solved => ({ circuit, end: { kind: "stopped", reason } });
  // A gas above its critical temperature, or near it, condenses at no pressure of the table.
  const { from, step, count } = sys.pack.liquidT;
  if (sys.Tci + leastRoom > from + step * (count - 1)) return stopped("above-property-table");
  if (sys.pRest < sys.pStart) return stopped("resting-pressure-too-low");
  if (!hasLoad(sys)) return stopped("no-load");
  const running = (by: "warm" | "guess" | "continuation" | "brackets"): Solved => {
    if (circuit.pc + sys.pnc > sys.trip) return stopped("high-pressure-trip");
    if (circuit.hs > circuit.heo + wetSuction * (circuit.s.hd - circuit.s.hb)) {
      return stopped("liquid-to-compressor");
    }
    return { circuit, end: { kind: "running", by } };
  };
  if (start) {
    Object.assign(circuit, start);
    // Behind a receiver the outlet is no unknown but the vehicle's own: that of the start is its neighbour's.
    enterRegime(circuit, circuit.regime);
    if (settle(circuit, work)) return running("warm");
  }
  const guesses = guessesFor(sys, labelCharge);
  for (const [k, guess] of guesses.entries()) {
    // The last ones are for other regimes than the likely one: they rarely help where those failed.
    if (k > 4) break;
    startFrom(circuit, guess);
    if (settle(circuit, work, shortNewton)) return running("guess");
  }
  const followed = followOutlet(circuit, work, limitOf(circuit));
  if (followed === "found") return running("continuation");
  if (followed === "high-pressure") return stopped(stopAt(circuit));
  return byBrackets(circuit, work, running);
}

/** Highest condensing pressure that is looked for, Pa: the switch, or the end of the table. */
const limitOf = ({ sys, c }: Circuit): number => Math.min(c.pack.pMax, sys.trip - sys.pnc);

const stopAt = (circuit: Circuit): StopReason =>
  limitOf(circuit) < circuit.sys.trip - circuit.sys.pnc
    ? "above-property-table"
    : "high-pressure-trip";

/**
 * Whether the coil, held by the control, would be colder than air that is not cooled at all, and
 * colder than the air of the condenser: else heat flows by itself the way it is wanted.
 */
function hasLoad(sys: System): boolean {
  const r = sys.recirculation;
  const fresh = (1 - r) * sys.Tamb + sys.blowerRise;
  const uncooled =
    sys.returnKnown === 2 ? (r * sys.retT0 + fresh) / (1 - r * sys.retT1) : r * sys.Tret + fresh;
  const iso = createIsobar(sys.pack);
  setPressure(iso, Math.min(sys.pack.pMax, highestSetting(sys)));
  return uncooled > iso.Td + leastLoad && sys.Tci > iso.Td + leastLoad;
}

/** Brackets at a known return air, which is renewed from pass to pass; Newton's method ends each. */
function byBrackets(
  circuit: Circuit,
  work: NewtonWork,
  running: (by: "brackets") => Solved,
): Solved {
  const { sys } = circuit;
  const limit = limitOf(circuit);
  const budget = circuit.evaluations + bracketBudget;
  startFrom(circuit, guessesFor(sys, sys.charge)[0]);
  for (let pass = 0; pass < returnPasses; pass++) {
    const end = bracketCircuit(circuit, limit, budget);
    if (end === "budget") break;
    if (end === "high-pressure")
      return { circuit, end: { kind: "stopped", reason: stopAt(circuit) } };
    if (end === "not-balanced") {
      return { circuit, end: { kind: "unresolved", reason: "not-balanced" } };
    }
    if (settle(circuit, work)) return running("brackets");
    const off = Math.abs(circuit.TretLaw - circuit.Tret);
    const offW = Math.abs(circuit.WretLaw - circuit.Wret);
    if (off < 1e-5 && offW < 1e-8) return running("brackets");
    circuit.Tret = circuit.TretLaw;
    circuit.Wret = circuit.WretLaw;
  }
  return { circuit, end: { kind: "unresolved", reason: "search-budget" } };
}

/** The unknowns of a solved circuit. */
export function startOf({ regime, d, lnPc, y, a, Tret, Wret }: Circuit): Start {
  return { regime, d, lnPc, y, a, Tret, Wret };
}
