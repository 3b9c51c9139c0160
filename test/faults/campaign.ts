import { faultNames } from "../../src/evidence/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { hiddenFault } from "./hidden-fault.ts";
import { score, type Score } from "./score.ts";

/** Noise units from which a hidden fault counts as one that physics can separate (chance of a mix-up by noise 7 %). */
export const separable = 3;

const faults = faultNames.filter((name) => name !== "none");

/** Hidden faults, each kind in turn, half of them with a baseline of the sound vehicle. */
export function scoredFaults(seed: number, count: number): readonly Score[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, k) => {
    const fault = faults[k % faults.length] ?? "undercharge";
    return score(hiddenFault(random, fault, Math.floor(k / faults.length) % 2 === 1));
  });
}

/** Hidden sound vehicles, half of them with a baseline. */
export function scoredSound(seed: number, count: number): readonly Score[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, k) => score(hiddenFault(random, "none", k % 2 === 1)));
}

export const share = <T>(all: readonly T[], holds: (one: T) => boolean): number =>
  all.filter(holds).length / Math.max(1, all.length);

/** Counts by kind and by distance, for the log of a campaign. */
export function tableOf(all: readonly Score[]): string {
  const right = ({ leadingFault, truth }: Score): boolean => leadingFault === truth;
  const rows = [0, 1, 2, 3, 4, 5].map((d) => {
    const far = all.filter(({ distance }) => distance >= d);
    const named = share(far, (one) => one.named === one.truth);
    return `distance >= ${d}: ${far.length}, leading fault right ${share(far, right).toFixed(3)}, named ${named.toFixed(3)}`;
  });
  const kinds = faults.map((name) => {
    const own = all.filter(({ truth }) => truth === name);
    const far = own.filter(({ distance }) => distance >= separable);
    const covered = own.filter((one) => one.covered !== undefined);
    return `${name}: ${own.length}, separable ${far.length}, of these right ${far.filter(right).length}; severity in its interval ${share(covered, (one) => one.covered === true).toFixed(2)}; taken for ${far
      .filter((one) => !right(one))
      .map((one) => one.leadingFault)
      .join(" ")}`;
  });
  const wrong = share(
    all,
    ({ named, truth }) => named !== truth && named !== "undecided" && named !== "healthy",
  );
  const ms = all.map((one) => one.ms).sort((a, b) => a - b);
  const at = (part: number): string => (ms[Math.floor(part * (ms.length - 1))] ?? 0).toFixed(0);
  return [
    ...rows,
    ...kinds,
    `a wrong fault named: ${wrong.toFixed(3)}`,
    `ms: median ${at(0.5)}, 95 % ${at(0.95)}, longest ${at(1)}`,
  ].join("\n");
}
