import type { Composition } from "./pack/composition.ts";
import { createRunWork, type Running, runVehicle, type RunWork, type VehicleCase } from "./run.ts";

/** A question to the model without the charge. */
export type UnchargedCase = Omit<VehicleCase, "fill"> & { readonly composition: Composition };

/** Charges over which a system runs alike: its buffer takes what is more, kg. */
export interface ChargePlateau {
  readonly kind: "plateau";
  /** Coils and lines are served and the buffer is empty. */
  readonly from: number;
  /** The buffer is full: more backs up into the condenser. */
  readonly to: number;
  /** Anywhere on it. */
  readonly running: Running;
}

export interface NoPlateau {
  readonly kind: "none";
  readonly reason: "no-property-table" | "never-balanced";
}

/** Search for a charge on the plateau: ratio of neighbours, and how far it goes. */
const RATIO = 1.06;
const SEARCHED = 48;
/** Of a charge; finer than any scale. */
const FINE = 1e-4;

/**
 * The charges between "coils and lines are served" and "the buffer is full" in given conditions.
 *
 * @param smallest kg: a charge that is surely too small; the search rises from there by a factor of 16.
 * @returns the plateau, or why there is none: a system may stop before it is served, or have no buffer.
 * Cost: about 60 runs, 10 ms, after the property pack.
 * Source: docs/models/charging.md
 */
export function chargePlateau(
  asked: UnchargedCase,
  smallest: number,
  work: RunWork = createRunWork(),
): ChargePlateau | NoPlateau {
  const { composition, ...rest } = asked;
  const run = (charge: number) =>
    runVehicle({ ...rest, fill: { composition, charge, air: 0 } }, work);
  let charge = smallest;
  for (let k = 0; k < SEARCHED; k++) {
    const found = run(charge);
    if (found.kind === "no-pack") return { kind: "none", reason: "no-property-table" };
    if (found.kind === "running" && found.regime === "balanced") {
      const from = charge - found.charge.bufferLiquid;
      return { kind: "plateau", from, to: endOf(charge, run), running: found };
    }
    charge *= RATIO;
  }
  return { kind: "none", reason: "never-balanced" };
}

/** The largest charge that is still balanced, from one that is. */
function endOf(inside: number, run: (charge: number) => ReturnType<typeof runVehicle>): number {
  const balanced = (charge: number): boolean => {
    const found = run(charge);
    return found.kind === "running" && found.regime === "balanced";
  };
  let low = inside;
  let high = inside * RATIO;
  while (balanced(high) && high < 8 * inside) [low, high] = [high, high * RATIO];
  while (high - low > FINE * low) {
    const middle = (low + high) / 2;
    if (balanced(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** A charge on the plateau of a refrigerant, kg. */
export interface OptimumCharge {
  readonly kind: "optimum";
  readonly charge: number;
  readonly plateau: ChargePlateau;
  /** Part of the buffer that is filled, as the label charge of the label refrigerant fills it. */
  readonly reserve: number;
}

/** Smallest charge that is tried, as part of the label charge. */
const SMALLEST = 0.15;

/**
 * The charge of a product that leaves the same reserve in the buffer as the label charge of the label refrigerant.
 *
 * @param label Composition and mass, kg, on the vehicle's label.
 * Limits: those of the model; the reserve is held between none and all of the buffer.
 * Source: docs/models/charging.md; no published rule
 */
export function optimumCharge(
  asked: UnchargedCase,
  label: { readonly composition: Composition; readonly charge: number },
  work: RunWork = createRunWork(),
): OptimumCharge | NoPlateau {
  const smallest = SMALLEST * label.charge;
  const own = chargePlateau({ ...asked, composition: label.composition }, smallest, work);
  if (own.kind === "none") return own;
  const plateau = chargePlateau(asked, smallest, work);
  if (plateau.kind === "none") return plateau;
  const width = own.to - own.from;
  const filled = width > 0 ? (label.charge - own.from) / width : 0;
  const reserve = Math.min(1, Math.max(0, filled));
  const charge = plateau.from + reserve * (plateau.to - plateau.from);
  return { kind: "optimum", charge, plateau, reserve };
}
