import type { FluidId } from "../../fluids/index.ts";
import { massParts, type Part } from "./composition.ts";
import { type Fact, intervalOf, type Trust, upperOf, usable } from "./fact.ts";
import { type Edition, type SubstanceFacts, substanceFacts } from "./substance-facts.ts";

/** What one component adds. */
export interface ClimatePart {
  readonly fluid: FluidId;
  /** By mass. */
  readonly fraction: number;
  /** `undefined` where the edition has no value, or only a shaky one. */
  readonly fact: Fact | undefined;
}

/** A sum over mass fractions, as far as it is known. */
export interface ClimateSum {
  /** The sum, with the higher end where a table says "less than"; `null` if a component has no value. */
  readonly value: number | null;
  /** The sum cannot be less … */
  readonly from: number;
  /** … nor more; `null` if a component has no value. */
  readonly to: number | null;
  readonly parts: readonly ClimatePart[];
  readonly missing: readonly FluidId[];
  /** The weakest mark of trust among the values in the sum. */
  readonly trust: Trust;
}

const ORDER: readonly Trust[] = ["published", "cross-checked", "memory", "shaky"];

const weakest = (facts: readonly Fact[]): Trust =>
  ORDER[Math.max(0, ...facts.map(({ trust }) => ORDER.indexOf(trust)))] ?? "shaky";

function sumOf(
  masses: readonly Part[],
  pick: (facts: SubstanceFacts) => Fact | undefined,
): ClimateSum {
  const parts = massParts(masses).map(({ fluid, fraction }) => ({
    fluid,
    fraction,
    fact: usable(pick(substanceFacts(fluid))),
  }));
  const missing = parts.filter(({ fact }) => fact === undefined).map(({ fluid }) => fluid);
  const known = parts.flatMap(({ fact, fraction }) => (fact ? [{ fact, fraction }] : []));
  const total = (end: (fact: Fact) => number): number =>
    known.reduce((sum, { fact, fraction }) => sum + fraction * end(fact), 0);
  const to = missing.length > 0 ? null : total(({ value }) => upperOf(value));
  return {
    value: to,
    from: total(({ value }) => intervalOf(value).from),
    to,
    parts,
    missing,
    trust: weakest(known.map(({ fact }) => fact)),
  };
}

/**
 * Global warming potential of a mixture over 100 years, kg CO2 per kg: the sum over mass fractions.
 *
 * @param masses  Mass fractions, sum 1.
 * @param edition Report whose values are taken; figures of different editions do not compare.
 * @throws        RangeError for fractions that make no whole: the caller's bug.
 *
 * Source: the sum over mass fractions is that of Regulation (EU) 517/2014 annex IV and of the IPCC's inventories.
 * Checked: climate.test.ts, test/published/blends.test.ts
 */
export const climateOf = (masses: readonly Part[], edition: Edition): ClimateSum =>
  sumOf(masses, ({ gwp100 }) => gwp100[edition]);

/** Ozone depletion potential of a mixture, R11 = 1: the sum over mass fractions; see {@link climateOf}. */
export const ozoneOf = (masses: readonly Part[]): ClimateSum => sumOf(masses, ({ odp }) => odp);
