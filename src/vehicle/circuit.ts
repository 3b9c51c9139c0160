import { createCriticalFlux, type CriticalFlux } from "./pack/critical-flux.ts";
import { createIsobar, type Isobar } from "./pack/isobar.ts";
import { createWeights, type Weights } from "./pack/interpolate.ts";
import type { Pack } from "./pack/pack.ts";
import type { System } from "./system.ts";

/**
 * How the charge meets the hardware.
 *
 * `balanced`: the accumulator or receiver holds some liquid; `starved`: it is empty; `flooded`: it
 * is full; `gas`: nothing condenses.
 */
export type Regime = "balanced" | "starved" | "flooded" | "gas";

/**
 * One evaluation of the circuit: the unknowns first, then everything that follows from them.
 * Owned by the caller, overwritten by each evaluation. SI, per kg, J, kg/s.
 */
export interface Circuit {
  readonly sys: System;
  regime: Regime;
  /** Refrigerant to be placed, kg: that of the system, but for a continuation on the way to it. */
  charge: number;
  // Unknowns
  /** Control: ≤ 0 is ln of the duty at the held suction pressure, > 0 ln(p_s/p_set) at full duty. */
  d: number;
  lnPc: number;
  /** Outlet of the condenser: −1 to 0 minus chi, below superheated, above 0 the share of area under liquid. */
  y: number;
  /** Opening of the valve. */
  a: number;
  Tret: number;
  Wret: number;
  // Pressures
  readonly c: Isobar;
  readonly s: Isobar;
  readonly e: Isobar;
  readonly dis: Isobar;
  pSet: number;
  ps: number;
  pc: number;
  pe: number;
  pDis: number;
  D: number;
  // Condenser
  hco: number;
  theta: number;
  W: number;
  pinch: number;
  Csh: number;
  Ctp: number;
  Csc: number;
  Mc: number;
  // Expansion
  m: number;
  // Evaporator
  Tai: number;
  Wai: number;
  hai: number;
  heo: number;
  Teo: number;
  Qe: number;
  hao: number;
  Wao: number;
  Tao: number;
  Tsurface: number;
  wet: number;
  Tvent: number;
  rhoE: number;
  /** Sums of one march. */
  /** How wet the step at hand is, 0 to 1. */
  wetness: number;
  sumW: number;
  sumRho: number;
  // Compressor
  hs: number;
  vs: number;
  h2s: number;
  etaV: number;
  etaIs: number;
  mFull: number;
  hdis: number;
  power: number;
  // Laws
  hAcc: number;
  gap: number;
  aLaw: number;
  TretLaw: number;
  WretLaw: number;
  M: number;
  mMax: number;
  // Scratch
  readonly flux: CriticalFlux;
  readonly weights: Weights;
  evaluations: number;
}

export function createCircuit(sys: System): Circuit {
  const iso = (pack: Pack): Isobar => createIsobar(pack);
  const { pack } = sys;
  return {
    sys,
    regime: "balanced",
    charge: sys.charge,
    d: 0,
    lnPc: 0,
    y: 0,
    a: 0,
    Tret: sys.Tret,
    Wret: sys.Wret,
    c: iso(pack),
    s: iso(pack),
    e: iso(pack),
    dis: iso(pack),
    pSet: 0,
    ps: 0,
    pc: 0,
    pe: 0,
    pDis: 0,
    D: 0,
    hco: 0,
    theta: 0.3,
    W: 0,
    pinch: 0,
    Csh: 0,
    Ctp: 0,
    Csc: 0,
    Mc: 0,
    m: 0,
    Tai: 0,
    Wai: 0,
    hai: 0,
    heo: 0,
    Teo: 0,
    Qe: 0,
    hao: 0,
    Wao: 0,
    Tao: 0,
    Tsurface: 0,
    wet: 0,
    Tvent: 0,
    rhoE: 0,
    wetness: 0,
    sumW: 0,
    sumRho: 0,
    hs: 0,
    vs: 0,
    h2s: 0,
    etaV: 0,
    etaIs: 0,
    mFull: 0,
    hdis: 0,
    power: 0,
    hAcc: 0,
    gap: 0,
    aLaw: 0,
    TretLaw: 0,
    WretLaw: 0,
    M: 0,
    mMax: 0,
    flux: createCriticalFlux(),
    weights: createWeights(),
    evaluations: 0,
  };
}
