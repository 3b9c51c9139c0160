import type { Circuit } from "./circuit.ts";
import { volumeAt } from "./pack/isobar.ts";

/**
 * Mass that circulates and lies in lines and coils, kg, without the buffer's liquid; and the most
 * liquid that the buffer can hold. After evaporator and condenser.
 *
 * Source of the void fraction in the coils: Zivi 1964
 */
export function inventory(circuit: Circuit): void {
  const { sys, c, s, dis } = circuit;
  const buffer = sys.orifice ? s : c;
  circuit.M =
    circuit.Mc +
    sys.Ve * circuit.rhoE +
    sys.Vliq / volumeAt(c, circuit.hco) +
    sys.Vdis / volumeAt(dis, circuit.hdis) +
    sys.Vsuc / circuit.vs +
    sys.Vacc * buffer.rhoD;
  circuit.mMax = sys.Vacc * sys.fill * (buffer.rhoB - buffer.rhoD);
}

/** Where the charge lies, kg. */
export interface ChargeByPart {
  readonly condenser: number;
  readonly evaporator: number;
  readonly liquidLine: number;
  readonly dischargeLine: number;
  readonly suctionLine: number;
  readonly bufferVapour: number;
  readonly bufferLiquid: number;
}

/** The parts of {@link inventory}, with the liquid of the buffer that a solved circuit holds. */
export function chargeByPart(circuit: Circuit): ChargeByPart {
  const { sys, c, s, dis } = circuit;
  return {
    condenser: circuit.Mc,
    evaporator: sys.Ve * circuit.rhoE,
    liquidLine: sys.Vliq / volumeAt(c, circuit.hco),
    dischargeLine: sys.Vdis / volumeAt(dis, circuit.hdis),
    suctionLine: sys.Vsuc / circuit.vs,
    bufferVapour: sys.Vacc * (sys.orifice ? s : c).rhoD,
    bufferLiquid: reserve(circuit),
  };
}

/** Liquid in the buffer, kg, of a solved circuit. */
export function reserve(circuit: Circuit): number {
  switch (circuit.regime) {
    case "balanced":
      return circuit.charge - circuit.M;
    case "flooded":
      return circuit.mMax;
    case "starved":
    case "gas":
      return 0;
  }
}
