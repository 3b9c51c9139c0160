import type { Composition } from "./pack/composition.ts";

/** Air that returns to the evaporator from the cabin. */
export type ReturnAir =
  | { readonly kind: "measured"; readonly T: number; readonly humidity?: number }
  /** Share of the way from ambient to the steady closed cabin: 0 doors open, 0.45 after a short idle, 0.9 after a long drive. */
  | { readonly kind: "pull-down"; readonly share: number };

/** Where and how a vehicle runs, SI. */
export interface Conditions {
  /** Ambient, K. */
  readonly ambient: number;
  /** Relative humidity of it, 0 to 1. */
  readonly humidity: number;
  /** Pressure of the air, Pa: gauges and switches count from it. */
  readonly pAir: number;
  /** Vehicle speed, m/s. */
  readonly speed: number;
  /** Engine, rev/s. */
  readonly engineSpeed: number;
  /** Share of the full air flow, 0.2 to 1. */
  readonly blower: number;
  /** Share of cabin air in the air to the evaporator. */
  readonly recirculation: number;
  readonly returnAir: ReturnAir;
  readonly occupants: number;
}

/** What may be wrong with a system; 1 is sound. */
export interface Faults {
  /** Factor on volumetric efficiency. */
  readonly weakCompressor: number;
  /** Factor on condenser air. */
  readonly blockedCondenser: number;
  /** Factor on the area of the expansion device. */
  readonly restriction: number;
}

export const sound: Faults = { weakCompressor: 1, blockedCondenser: 1, restriction: 1 };

/** What is in the system. */
export interface Fill {
  readonly composition: Composition;
  /** Refrigerant, kg. */
  readonly charge: number;
  /** Air left in the empty system before charging: its pressure at ambient, Pa. */
  readonly air: number;
}
