import { signsNeeded } from "./fault-facts.ts";
import type { FaultName } from "./hypotheses.ts";

/** What may be said, and what is only suspected. */
export interface Verdict {
  /** A fault that may be named, or a sound vehicle, or that the readings do not decide. */
  readonly named: Exclude<FaultName, "none"> | "healthy" | "undecided";
  /** The likeliest fault, where it may not be named. */
  readonly suspected?: Exclude<FaultName, "none">;
  /** Some hypothesis shows these readings within what instruments, vehicles and model allow. */
  readonly fits: boolean;
}

/** Probability from which a fault may be named, and a sound vehicle be called so (choices). */
const namedFrom = 0.7;
const healthyFrom = 0.5;

/** Upper 99.5 % point of chi-squared, Wilson and Hilferty 1931. */
const farthest = (k: number): number => k * (1 - 2 / (9 * k) + 2.576 * Math.sqrt(2 / (9 * k))) ** 3;

/**
 * A fault is named when it holds most of the probability, two independent signs speak for it, and the readings fit
 * it. With one reading nothing is decided.
 *
 * @param faults  By probability.
 * @param bestFit Squared distance of the readings from the nearest hypothesis.
 */
export function verdictOf(
  faults: readonly {
    readonly name: FaultName;
    readonly probability: number;
    readonly independentSigns: number;
  }[],
  bestFit: number,
  readings: number,
): Verdict {
  const fits = readings === 0 || bestFit <= farthest(readings);
  const [first] = faults;
  if (!first || readings < 2) return { named: "undecided", fits };
  const { name, probability, independentSigns } = first;
  if (name === "none" && probability >= healthyFrom) {
    return { named: fits ? "healthy" : "undecided", fits };
  }
  const [suspected] = faults.flatMap((fault) => (fault.name === "none" ? [] : [fault.name]));
  if (!suspected) return { named: "undecided", fits };
  const certain = probability >= namedFrom && independentSigns >= signsNeeded;
  return name === suspected && fits && certain
    ? { named: name, fits }
    : { named: "undecided", suspected, fits };
}
