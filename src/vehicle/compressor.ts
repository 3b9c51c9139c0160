import type { Circuit } from "./circuit.ts";
import { enthalpyAtEntropy, entropyAt, setPressure, volumeAt } from "./pack/isobar.ts";

/** Outside of these the correlations mean nothing. */
const clip = (value: number, from: number, to: number): number =>
  Math.min(to, Math.max(from, value));

/**
 * Compresses the suction gas of a circuit: flow at full duty, discharge state, shaft power.
 *
 * Re-expansion of the clearance volume goes with the isentropic ratio of volumes, which needs no
 * polytropic exponent of the fluid.
 *
 * Source: common practice; the clearance term is the textbook relation
 */
export function compress(circuit: Circuit): void {
  const { sys, s, c, dis, m, D } = circuit;
  circuit.pDis = Math.min(1.15 * c.pack.pMax, circuit.pc + sys.pnc + (sys.Kc * m * m) / c.rhoD);
  setPressure(dis, circuit.pDis);
  circuit.vs = volumeAt(s, circuit.hs);
  const entropy = entropyAt(s, circuit.hs);
  const start = dis.hd + Math.max(0, entropy - dis.sd) * dis.Td;
  circuit.h2s = enthalpyAtEntropy(dis, entropy, start);
  const v2s = volumeAt(dis, circuit.h2s);
  const filling = 1 - sys.clearance * (circuit.vs / v2s - 1);
  circuit.etaV = clip(sys.etaV * filling, 0.02, 1);
  circuit.mFull = (circuit.etaV * sys.sweep) / circuit.vs;
  const off = circuit.pDis / circuit.ps - 4;
  let etaIs = clip(sys.etaIs - sys.etaIsRatio * off * off, 0.3, 0.82);
  if (sys.variable) etaIs *= Math.max(D, 0.05) ** 0.08;
  circuit.etaIs = etaIs;
  const work = circuit.h2s - circuit.hs;
  circuit.hdis = circuit.hs + ((1 - sys.shellLoss) * work) / etaIs;
  circuit.power = (m * work) / (etaIs * sys.etaMech);
}
