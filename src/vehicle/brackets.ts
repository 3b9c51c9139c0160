import { findRoot } from "../numerics/index.ts";
import type { Circuit, Regime } from "./circuit.ts";
import { AREA, CHARGE, evaluateCircuit, FLOW, UNKNOWNS, VALVE } from "./evaluate.ts";
import { dewPressureAt } from "./pack/isobar.ts";
import { enterRegime, fittingRegime } from "./settle.ts";

/** What a search by nested brackets ended with. */
export type BracketEnd = "found" | "high-pressure" | "not-balanced" | "budget";

/** State of one search. */
interface Search {
  readonly circuit: Circuit;
  readonly r: Float64Array;
  /** Highest condensing pressure allowed, Pa. */
  readonly limit: number;
  readonly budget: number;
  /** What the last search in p_c found: a balance, or on which side there is none. */
  side: "found" | "high-pressure" | "low-pressure";
  /** Whether any outlet met the limit of pressure. */
  sawHigh: boolean;
}

const spent = (search: Search): boolean => search.circuit.evaluations > search.budget;

/** Relative accuracy of the nested roots, inner to outer: each must be finer than the next. */
const widths = { d: 1e-10, a: 1e-9, p: 1e-8, y: 1e-7 };
/** The condensing pressure is looked for from this much below the air's dew pressure, and scanned so often. */
const scan = 10;

function evaluate(search: Search): void {
  evaluateCircuit(search.circuit, search.r);
}

/** Duty or suction pressure at which compressor and expansion pass the same flow. */
function solveDuty(search: Search): void {
  const { circuit, r } = search;
  const flow = (d: number): number => {
    circuit.d = d;
    evaluate(search);
    return r[FLOW];
  };
  const atSet = flow(0);
  if (atSet === 0) return;
  const highest = Math.log((0.95 * circuit.pc) / circuit.pSet);
  const [low, high] = atSet > 0 ? [-9, 0] : [0, highest];
  if (high <= low) return;
  const root = findRoot(flow, low, high, { absoluteWidth: widths.d, maxIterations: 60 });
  // Without a change of sign the nearer end stays: the residual tells.
  flow(root.kind === "root" ? root.x : high > 0 ? high : low);
}

/** Opening of the valve that agrees with its law. */
function solveOpening(search: Search): void {
  const { circuit, r } = search;
  if (circuit.sys.orifice) {
    solveDuty(search);
    return;
  }
  const law = (a: number): number => {
    circuit.a = a;
    solveDuty(search);
    return r[VALVE];
  };
  const root = findRoot(law, circuit.sys.aMin, 1, { absoluteWidth: widths.a, maxIterations: 50 });
  law(root.kind === "root" ? root.x : Math.abs(law(1)) < 1e-9 ? 1 : circuit.sys.aMin);
}

/** Condensing pressure at which the heat finds its area. Returns the last residual of it. */
function solvePressure(search: Search, residual: number = AREA): number {
  const { circuit, r } = search;
  const { sys, c, weights } = circuit;
  const area = (lnPc: number): number => {
    if (spent(search)) return 0;
    circuit.lnPc = lnPc;
    solveOpening(search);
    return r[residual];
  };
  const floor = residual === AREA ? dewPressureAt(c.pack, sys.Tci - 3, weights) : 1.1 * c.pack.pMin;
  const low = Math.log(Math.max(1.1 * c.pack.pMin, floor));
  const high = Math.log(search.limit);
  const options = { absoluteWidth: widths.p, maxIterations: 60 };
  let root = findRoot(area, low, high, options);
  if (root.kind === "failed" && root.reason === "no-sign-change") {
    // A second crossing may hide between: coarse scan from below.
    let [x1, f1] = [low, area(low)];
    for (let k = 1; k <= scan && root.kind === "failed" && !spent(search); k++) {
      const x2 = low + ((high - low) * k) / scan;
      const f2 = area(x2);
      if (f1 * f2 < 0) root = findRoot(area, x1, x2, options);
      [x1, f1] = [x2, f2];
    }
  }
  if (root.kind === "root") {
    search.side = "found";
    area(root.x);
  } else search.side = area(high) > 0 ? "high-pressure" : "low-pressure";
  return r[residual];
}

/** Finds the condenser's outlet of a regime; the signs of the ends are those of too much and too little charge. */
function solveOutlet(search: Search): BracketEnd {
  const { circuit, r } = search;
  if (circuit.regime === "gas") {
    solvePressure(search, CHARGE);
    return finished(search);
  }
  if (!circuit.sys.orifice && circuit.regime === "balanced") {
    solvePressure(search);
    return finished(search);
  }
  const outlet = (y: number): number => {
    if (spent(search)) return 0;
    circuit.y = y;
    solvePressure(search);
    if (search.side === "high-pressure") search.sawHigh = true;
    if (search.side !== "found") return search.side === "high-pressure" ? 3 : -3;
    return r[CHARGE];
  };
  const nodes = [-2, -1, -0.3, -0.05, 0, 0.1, 0.3, 0.6, 0.97];
  let [y1, f1] = [nodes[0], outlet(nodes[0])];
  for (let k = 1; k < nodes.length; k++) {
    const y2 = nodes[k];
    const f2 = outlet(y2);
    if (f1 * f2 <= 0) {
      const root = findRoot(outlet, y1, y2, { absoluteWidth: widths.y, maxIterations: 60 });
      if (root.kind === "root") {
        outlet(root.x);
        const end = finished(search);
        if (end !== "not-balanced") return end;
      }
    }
    [y1, f1] = [y2, f2];
  }
  if (spent(search)) return "budget";
  return search.sawHigh ? "high-pressure" : "not-balanced";
}

/** Residuals larger than this are a jump, not a root. */
const jump = 1e-5;

function finished(search: Search): BracketEnd {
  const { circuit, r } = search;
  if (spent(search)) return "budget";
  if (search.side === "high-pressure") return "high-pressure";
  const gas = circuit.regime === "gas";
  const flooded = circuit.sys.orifice || circuit.regime !== "balanced";
  const rest = [
    r[FLOW],
    gas ? 0 : r[AREA],
    flooded ? r[CHARGE] : 0,
    circuit.sys.orifice ? 0 : r[VALVE],
  ];
  return rest.every((each) => Math.abs(each) < jump) ? "found" : "not-balanced";
}

/** Regimes in the order in which they are tried from one that did not fit. */
const order: readonly Regime[] = ["balanced", "starved", "flooded", "gas"];

/**
 * Finds a steady state by nested one-dimensional searches: outlet, condensing pressure, valve, duty.
 * Slow and hard to mislead; the return air stays as it is in the circuit.
 *
 * @param limit   Highest condensing pressure, Pa.
 * @param budget  Evaluations of the circuit allowed, on its counter.
 */
export function bracketCircuit(circuit: Circuit, limit: number, budget: number): BracketEnd {
  const r = new Float64Array(UNKNOWNS);
  let worst: BracketEnd = "not-balanced";
  const tried = new Set<Regime>();
  let next: Regime | undefined = "balanced";
  while (next !== undefined) {
    tried.add(next);
    enterRegime(circuit, next);
    const search: Search = { circuit, r, limit, budget, side: "found", sawHigh: false };
    const end = solveOutlet(search);
    if (end === "budget") return end;
    if (end === "found") {
      const fit = fittingRegime(circuit);
      if (fit === circuit.regime) return "found";
      next = tried.has(fit) ? undefined : fit;
    } else {
      if (end === "high-pressure") worst = end;
      next = undefined;
    }
    next ??= order.find((regime) => !tried.has(regime));
  }
  return worst;
}
