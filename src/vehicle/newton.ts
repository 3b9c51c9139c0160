import { solveLinear } from "../numerics/index.ts";
import type { Circuit } from "./circuit.ts";
import {
  AREA,
  CHARGE,
  evaluateCircuit,
  FLOW,
  RETURN_T,
  RETURN_W,
  UNKNOWNS,
  VALVE,
} from "./evaluate.ts";

/** Scratch of the solver; one per thread of work. */
export interface NewtonWork {
  readonly x: Float64Array;
  readonly best: Float64Array;
  readonly r: Float64Array;
  readonly moved: Float64Array;
  readonly jacobian: Float64Array;
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly active: Int8Array;
  count: number;
  /** The outlet of the condenser stays where it is and the charge follows from it. */
  outletFixed: boolean;
}

export function createNewtonWork(): NewtonWork {
  const column = (): Float64Array => new Float64Array(UNKNOWNS);
  return {
    x: column(),
    best: column(),
    r: column(),
    moved: column(),
    jacobian: new Float64Array(UNKNOWNS * UNKNOWNS),
    matrix: new Float64Array(UNKNOWNS * UNKNOWNS),
    right: column(),
    active: new Int8Array(UNKNOWNS),
    count: 0,
    outletFixed: false,
  };
}

/** Steps of the forward differences, and longest steps of one iteration, by unknown. */
const probes = Float64Array.of(1e-6, 1e-6, 1e-6, 1e-5, 1e-3, 1e-6);
const longest = Float64Array.of(0.5, 0.15, 0.15, 0.3, 8, 0.02);
export const tolerance = 1e-8;
const maxIterations = 30;
const halvings = 5;
/** A Jacobian is kept while the residual falls at least this much in a step. */
const goodFall = 0.15;

/** Which unknowns move: the rest follow from the regime or are known. */
function setActive(circuit: Circuit, work: NewtonWork): void {
  const { sys, regime } = circuit;
  const { active } = work;
  let n = 0;
  active[n++] = FLOW;
  if (regime === "gas") {
    active[n++] = CHARGE;
  } else {
    active[n++] = AREA;
    const free = sys.orifice || regime !== "balanced";
    if (free && !work.outletFixed) active[n++] = CHARGE;
  }
  if (!sys.orifice) active[n++] = VALVE;
  if (sys.returnKnown === 2) active[n++] = RETURN_T;
  if (sys.returnKnown >= 1) active[n++] = RETURN_W;
  work.count = n;
}

/** The unknown beside a residual: without condensation the charge moves the pressure. */
function unknownOf(circuit: Circuit, residual: number): number {
  return circuit.regime === "gas" && residual === CHARGE ? AREA : residual;
}

function write(circuit: Circuit, k: number, value: number): void {
  switch (k) {
    case FLOW:
      circuit.d = Math.min(3.5, Math.max(-9, value));
      break;
    case AREA: {
      const { pMin, pMax } = circuit.c.pack;
      circuit.lnPc = Math.min(Math.log(pMax), Math.max(Math.log(1.02 * pMin), value));
      break;
    }
    case CHARGE:
      circuit.y = Math.min(0.97, Math.max(-2, value));
      break;
    case VALVE:
      circuit.a = Math.min(1, Math.max(circuit.sys.aMin, value));
      break;
    case RETURN_T:
      circuit.Tret = Math.min(350, Math.max(240, value));
      break;
    default:
      circuit.Wret = Math.min(0.3, Math.max(0, value));
  }
}

function readUnknowns(circuit: Circuit, x: Float64Array): void {
  x[FLOW] = circuit.d;
  x[AREA] = circuit.lnPc;
  x[CHARGE] = circuit.y;
  x[VALVE] = circuit.a;
  x[RETURN_T] = circuit.Tret;
  x[RETURN_W] = circuit.Wret;
}

function norm(work: NewtonWork, r: Float64Array): number {
  let largest = 0;
  for (let k = 0; k < work.count; k++) {
    const size = Math.abs(r[work.active[k]]);
    if (!(size <= largest)) largest = size;
  }
  return Number.isFinite(largest) ? largest : 1e300;
}

function fillJacobian(circuit: Circuit, work: NewtonWork): void {
  const { x, r, moved, jacobian, active, count } = work;
  for (let j = 0; j < count; j++) {
    const k = unknownOf(circuit, active[j]);
    // An upper end is approached from below.
    const up = k === VALVE ? x[k] < 0.9 : k === CHARGE ? x[k] < 0.9 : true;
    const probe = up ? probes[k] : -probes[k];
    write(circuit, k, x[k] + probe);
    evaluateCircuit(circuit, moved);
    for (let i = 0; i < count; i++) {
      jacobian[i * UNKNOWNS + j] = (moved[active[i]] - r[active[i]]) / probe;
    }
    write(circuit, k, x[k]);
  }
}

function solveStep(circuit: Circuit, work: NewtonWork): boolean {
  const { jacobian, matrix, right, r, active, count } = work;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < count; j++) matrix[i * count + j] = jacobian[i * UNKNOWNS + j];
    right[i] = -r[active[i]];
  }
  if (!solveLinear(count, matrix, right)) return false;
  let scale = 1;
  for (let j = 0; j < count; j++) {
    scale = Math.min(scale, longest[unknownOf(circuit, active[j])] / Math.abs(right[j]));
  }
  if (!Number.isFinite(scale) && !(scale === Infinity)) return false;
  for (let j = 0; j < count; j++) right[j] *= scale;
  return true;
}

function move(circuit: Circuit, work: NewtonWork, share: number): void {
  const { x, right, active, count } = work;
  for (let j = 0; j < count; j++) {
    const k = unknownOf(circuit, active[j]);
    write(circuit, k, x[k] + share * right[j]);
  }
}

/**
 * Newton's method on the circuit's residuals in one regime, from the unknowns in the circuit.
 *
 * The Jacobian is kept as long as the residual falls fast. A step that does not lower the residual
 * is halved; the shortest is taken anyway, which crosses kinks.
 *
 * @returns Whether every residual is below {@link tolerance}; the circuit stands at the best point.
 */
export function newtonCircuit(circuit: Circuit, work: NewtonWork, limit = maxIterations): boolean {
  const { x, best, r } = work;
  setActive(circuit, work);
  evaluateCircuit(circuit, r);
  readUnknowns(circuit, x);
  let size = norm(work, r);
  let smallest = size;
  best.set(x);
  let fresh = false;
  for (let iteration = 0; iteration < limit && size >= tolerance; iteration++) {
    if (!fresh) fillJacobian(circuit, work);
    if (!solveStep(circuit, work)) break;
    let share = 1;
    let next = size;
    for (let k = 0; k <= halvings; k++) {
      move(circuit, work, share);
      evaluateCircuit(circuit, r);
      next = norm(work, r);
      if (next < (1 - 0.1 * share) * size) break;
      share *= 0.5;
    }
    fresh = next < goodFall * size;
    size = next;
    readUnknowns(circuit, x);
    if (size < smallest) {
      smallest = size;
      best.set(x);
    }
  }
  if (size >= tolerance) restore(circuit, best, r);
  return size < tolerance;
}

function restore(circuit: Circuit, best: Float64Array, r: Float64Array): void {
  for (let k = 0; k < UNKNOWNS; k++) write(circuit, k, best[k]);
  evaluateCircuit(circuit, r);
}
