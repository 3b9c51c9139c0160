import type { Circuit } from "./circuit.ts";
import { compress } from "./compressor.ts";
import { condense, condenserOutlet } from "./condenser.ts";
import { evaporate } from "./evaporator.ts";
import { valveLaw } from "./expansion.ts";
import { inventory } from "./inventory.ts";
import { setPressure } from "./pack/isobar.ts";
import type { System } from "./system.ts";

/** Places of the residuals, each beside the unknown that moves it most: d, ln p_c, y, a, T_ret, W_ret. */
export const FLOW = 0;
export const AREA = 1;
export const CHARGE = 2;
export const VALVE = 3;
export const RETURN_T = 4;
export const RETURN_W = 5;
export const UNKNOWNS = 6;

/** Sizes that make residuals of the return air comparable with the rest, K and kg/kg. */
const returnScale = { T: 10, W: 0.005 };
/** Enthalpy fraction below which no accumulator sends what it holds. */
const wettestSuction = 0.35;
/** Head at which the displacement valve's set point is stated, and the span over which it moves, Pa. */
const head = { at: 1.2e6, below: -0.4e6, above: 1.2e6 };

/**
 * Goes once round the circuit, explicitly: outlet of the condenser, expansion, evaporator,
 * compressor, area of the condenser, laws of control and charge.
 *
 * @param r  Residuals, all 0 at a steady state.
 */
export function evaluateCircuit(circuit: Circuit, r: Float64Array): void {
  circuit.evaluations++;
  const { sys } = circuit;
  setPressures(circuit);
  condenserOutlet(circuit);
  evaporate(circuit);
  suction(circuit);
  compress(circuit);
  condense(circuit);
  inventory(circuit);
  r[FLOW] = Math.log((circuit.D * circuit.mFull) / circuit.m);
  // 1 − 1/W is nearly straight in the condensing temperature, also where the required area W is huge.
  r[AREA] = 1 - 1 / circuit.W + circuit.pinch / 5;
  r[CHARGE] = chargeResidual(circuit);
  circuit.aLaw = sys.orifice ? 1 : valveLaw(circuit);
  r[VALVE] = circuit.aLaw - circuit.a;
  r[RETURN_T] = (circuit.TretLaw - circuit.Tret) / returnScale.T;
  r[RETURN_W] = (circuit.WretLaw - circuit.Wret) / returnScale.W;
}

/** Suction pressure that the control holds at the lowest heads, Pa: the highest it ever holds. */
export const highestSetting = (sys: System): number => sys.pSet - sys.pSetSlope * head.below;

/** Condensing pressure, suction pressure and duty of the unknowns. */
function setPressures(circuit: Circuit): void {
  const { sys, c, s, d } = circuit;
  const { pMin, pMax } = c.pack;
  circuit.pc = Math.min(pMax, Math.max(1.02 * pMin, Math.exp(circuit.lnPc)));
  setPressure(c, circuit.pc);
  const over = Math.min(head.above, Math.max(head.below, circuit.pc - head.at));
  circuit.pSet = Math.max(1.01 * pMin, sys.pSet - sys.pSetSlope * over);
  if (d >= 0) {
    circuit.D = 1;
    circuit.ps = circuit.pSet * Math.exp(d);
  } else if (d >= sys.lnSmallest) {
    circuit.D = Math.exp(d);
    circuit.ps = circuit.pSet;
  } else {
    // At the least duty the suction falls below what the control would hold.
    circuit.D = Math.exp(sys.lnSmallest);
    circuit.ps = circuit.pSet * Math.exp(d - sys.lnSmallest);
  }
  circuit.ps = Math.min(0.97 * pMax, Math.max(pMin, circuit.ps));
  setPressure(s, circuit.ps);
}

/** Suction enthalpy: an accumulator that is not full sends vapour and a little liquid. */
function suction(circuit: Circuit): void {
  const { sys, s, heo } = circuit;
  const fg = s.hd - s.hb;
  circuit.hAcc = s.hb + sys.xAcc * fg;
  if (sys.orifice) {
    circuit.gap = (circuit.hAcc - heo) / fg;
    circuit.hs = circuit.regime === "flooded" ? heo : Math.max(heo, circuit.hAcc);
  } else {
    circuit.gap = circuit.y - sys.fsc;
    circuit.hs = heo;
  }
  circuit.hs = Math.max(circuit.hs, s.hb + wettestSuction * fg);
}

function chargeResidual(circuit: Circuit): number {
  const { charge, M, mMax } = circuit;
  switch (circuit.regime) {
    case "balanced":
      return circuit.gap;
    case "starved":
    case "gas":
      return Math.log(M / charge);
    case "flooded":
      return Math.log((M + mMax) / charge);
  }
}
