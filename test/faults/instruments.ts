import type { Reader } from "../../src/evidence/faults/predict.ts";
import {
  type FaultQuantity,
  faultQuantities,
  type FaultReading,
  outer,
  placeOf,
  usualMetal,
  usualUncertainty,
} from "../../src/evidence/faults/quantities.ts";
import { normal, type Random } from "../../src/numerics/index.ts";

export type Between = (from: number, to: number) => number;

export interface Instruments {
  /** What they show of a run's true values. */
  read(
    values: readonly number[],
    quantities: readonly FaultQuantity[],
    reader: Reader,
  ): readonly FaultReading[];
}

/** Own error of the thermometer on a line whose saturation a gauge gives, K. */
const lineThermometer = 1;

/**
 * A tester's instruments: each errs by an offset that stays and by how it was read; nobody knows which part is which.
 * A superheat is computed from the low gauge, a subcooling from the high one, with their errors.
 */
export function drawInstruments(random: Random, between: Between): Instruments {
  const stays = between(0.4, 1);
  const offsets = new Map(faultQuantities.map((quantity) => [quantity, normal(random)]));
  /** In standard uncertainties. */
  const error = (quantity: FaultQuantity): number =>
    Math.sqrt(stays) * (offsets.get(quantity) ?? 0) + Math.sqrt(1 - stays) * normal(random);
  return {
    read(values, quantities, { label, metal }) {
      const truth = (quantity: FaultQuantity): number =>
        outer(quantity, values[placeOf(quantity)] ?? 0);
      const gauge = (quantity: "low" | "high"): number =>
        truth(quantity) + usualUncertainty[quantity] * error(quantity);
      const [low, high] = [gauge("low"), gauge("high")];
      const shown = (quantity: FaultQuantity): number => {
        const value = truth(quantity);
        switch (quantity) {
          case "low":
            return low;
          case "high":
            return high;
          case "superheat":
            return (
              value - label.dewT(low) + label.dewT(truth("low")) + lineThermometer * error(quantity)
            );
          case "subcooling":
            return (
              value +
              label.bubbleT(high) -
              label.bubbleT(truth("high")) +
              lineThermometer * error(quantity)
            );
          case "duty":
            return Math.min(1, Math.max(0, value + usualUncertainty.duty * error(quantity)));
          case "vent":
          case "discharge":
          case "liquidLine":
          case "static":
            return value + usualUncertainty[quantity] * error(quantity);
        }
      };
      return quantities.map((quantity): FaultReading => {
        const value = shown(quantity);
        if (quantity !== "static") return { quantity, value };
        return { quantity, value, metal: metal + usualMetal * normal(random) };
      });
    },
  };
}
