import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { StandardTally, Survey, Tally } from "./coverage-survey.ts";

/**
 * A survey that may be made in pieces: with a folder in SURVEYS it is taken from there if it was made before, and
 * left there otherwise.
 */
export function keptSurvey(name: string, make: () => Survey): Survey {
  const folder = process.env["SURVEYS"];
  if (folder === undefined) return make();
  const file = join(folder, `${name}.json`);
  if (existsSync(file)) {
    const { tallies, standard, ...rest } = JSON.parse(readFileSync(file, "utf8")) as Kept;
    return { ...rest, tallies: new Map(tallies), standard: new Map(standard) };
  }
  const survey = make();
  const { tallies, standard, ...rest } = survey;
  const kept: Kept = { ...rest, tallies: [...tallies], standard: [...standard] };
  writeFileSync(file, JSON.stringify(kept));
  return survey;
}

type Kept = Omit<Survey, "tallies" | "standard"> & {
  readonly tallies: readonly [string, Tally][];
  readonly standard: readonly [string, StandardTally][];
};
