import { type FaultName, faultNames } from "../../src/evidence/index.ts";
import { createRandom } from "../../src/numerics/index.ts";
import { hiddenFault, type RunKind } from "./hidden-fault.ts";
import { score, type Score } from "./score.ts";

/** Noise units from which a hidden fault counts as one that physics can separate (chance of a mix-up by noise 7 %). */
export const separable = 3;

export const faults = faultNames.filter((name) => name !== "none");

/** What a tester reads: one run of any kind, or several of the same day. */
export const forms = {
  single: undefined,
  joint: ["idle", "road"],
  "joint of three": ["idle", "raised-idle", "road"],
} as const satisfies Record<string, readonly RunKind[] | undefined>;
export type Form = keyof typeof forms;

/** Hidden faults, each kind in turn, half of them with a baseline of the sound vehicle. */
export function scoredFaults(form: Form, seed: number, count: number): readonly Score[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, k) => {
    const fault = faults[k % faults.length] ?? "undercharge";
    const withBaseline = Math.floor(k / faults.length) % 2 === 1;
    return score(hiddenFault(random, fault, withBaseline, forms[form]));
  });
}

/** Hidden sound vehicles, half of them with a baseline. */
export function scoredSound(form: Form, seed: number, count: number): readonly Score[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, k) =>
    score(hiddenFault(random, "none", k % 2 === 1, forms[form])),
  );
}

export const share = <T>(all: readonly T[], holds: (one: T) => boolean): number =>
  all.filter(holds).length / Math.max(1, all.length);

export const leadsRightly = ({ leadingFault, truth }: Score): boolean => leadingFault === truth;
export const isFar = ({ distance }: Score): boolean => distance >= separable;
/** A fault was named that is not the vehicle's. */
export const accusesWrongly = ({ named, truth }: Score): boolean =>
  named !== "healthy" && named !== "undecided" && named !== truth;

const percent = (value: number): string => (100 * value).toFixed(1);

/** Shares by distance and by kind, for the log of a campaign. */
export function tableOf(all: readonly Score[]): string {
  const rows = [0, 1, 2, 3, 4, 5].map((d) => {
    const far = all.filter(({ distance }) => distance >= d);
    const named = share(far, (one) => one.named === one.truth);
    return `distance >= ${d}: ${far.length}, leading fault right ${percent(share(far, leadsRightly))} %, named ${percent(named)} %`;
  });
  const wrong = share(all, accusesWrongly);
  return [
    ...rows,
    ...faults.map((name) => kindRow(name, all)),
    `a wrong fault named: ${percent(wrong)} %`,
    timesOf(all),
  ].join("\n");
}

function kindRow(name: FaultName, all: readonly Score[]): string {
  const own = all.filter(({ truth }) => truth === name);
  const far = own.filter(isFar);
  const covered = own.filter((one) => one.covered !== undefined);
  const inside = percent(share(covered, (one) => one.covered === true));
  const taken = far.filter((one) => !leadsRightly(one)).map((one) => one.leadingFault);
  return [
    `${name}: ${own.length}, leads ${own.filter(leadsRightly).length}`,
    `named ${own.filter((one) => one.named === name).length}`,
    `separable ${far.length}, of these right ${far.filter(leadsRightly).length}`,
    `severity in its interval ${covered.length > 0 ? `${inside} %` : "not asked"}; taken for ${taken.join(" ")}`,
  ].join(", ");
}

export function timesOf(all: readonly Score[]): string {
  const ms = all.map((one) => one.ms).sort((a, b) => a - b);
  const at = (part: number): string => (ms[Math.floor(part * (ms.length - 1))] ?? 0).toFixed(0);
  return `ms: median ${at(0.5)}, 95 % ${at(0.95)}, longest ${at(1)}`;
}
