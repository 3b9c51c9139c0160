// The long version of test/faults/faults.test.ts: hidden faults and hidden sound vehicles, read in one run and in two.
// The parts take some minutes each. With KEPT_SCORES set to a folder they can be run one at a time (`-t`): what was
// worked out is kept there, and "together" finds it.
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import {
  accusesWrongly,
  type Form,
  isFar,
  leadsRightly,
  scoredFaults,
  scoredSound,
  share,
  tableOf,
  timesOf,
} from "../faults/campaign.ts";
import { reliabilityOf, reliabilityText } from "../faults/reliability.ts";
import type { Score } from "../faults/score.ts";

/** Vehicles in a part; two parts of faulty and two of sound ones for each form. */
const count = 250;
const parts = [0, 1] as const;
const cases: readonly { form: Form; seed: number; fewestFar: number }[] = [
  { form: "single", seed: 3101, fewestFar: 40 },
  { form: "joint", seed: 3201, fewestFar: 80 },
];
const timeout = 3_600_000;

const folder = process.env["KEPT_SCORES"];
const worked = new Map<string, readonly Score[]>();

function once(name: string, work: () => readonly Score[]): readonly Score[] {
  const file = folder === undefined ? undefined : join(folder, `${name}.json`);
  const found =
    worked.get(name) ??
    (file !== undefined && existsSync(file)
      ? (JSON.parse(readFileSync(file, "utf8")) as readonly Score[])
      : undefined);
  const all = found ?? work();
  worked.set(name, all);
  if (file !== undefined && !found) writeFileSync(file, JSON.stringify(all));
  return all;
}

describe.each(cases)("$form", ({ form, seed, fewestFar }) => {
  const faulty = (part: number): readonly Score[] =>
    once(`${form}-faulty-${part}`, () => scoredFaults(form, seed + part, count));
  const sound = (part: number): readonly Score[] =>
    once(`${form}-sound-${part}`, () => scoredSound(form, seed + 10 + part, count));

  test.each(parts)("faulty, part %i", { timeout }, (part) => {
    expect(faulty(part).length).toBe(count);
  });

  test.each(parts)("sound, part %i", { timeout }, (part) => {
    expect(sound(part).length).toBe(count);
  });

  test("together", { timeout }, () => {
    const allFaulty = parts.flatMap(faulty);
    const allSound = parts.flatMap(sound);
    const far = allFaulty.filter(isFar);
    const healthy = share(allSound, ({ named }) => named === "healthy");
    const accused = allSound.filter(accusesWrongly).map(({ named }) => named);
    console.info(`${form}\n${tableOf(allFaulty)}`);
    console.info(`sound: healthy ${healthy}, accused ${accused.join(" ")}\n${timesOf(allSound)}`);
    console.info(reliabilityText([...allFaulty, ...allSound]));
    expect(far.length).toBeGreaterThan(fewestFar);
    expect(share(far, leadsRightly)).toBeGreaterThanOrEqual(0.85);
    expect(healthy).toBeGreaterThanOrEqual(0.95);
    expect(accused.length).toBeLessThanOrEqual(0.01 * allSound.length);
    expect(reliabilityOf([...allFaulty, ...allSound]).error).toBeLessThan(0.03);
  });
});
