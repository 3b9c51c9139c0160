import type { FluidId } from "../../fluids/index.ts";
import { molarMass, type Part } from "./composition.ts";
import { type SafetyClass, usable } from "./fact.ts";
import { type FlammabilityLimit, leChatelier, listedLimit, molarMassOf } from "./le-chatelier.ts";
import type { NamedBlend } from "./named-blends.ts";
import { type SubstanceFacts, substanceFacts } from "./substance-facts.ts";

/** Lower flammability limits by the table that they come from, and the one to warn with. */
export interface Limits {
  readonly ashrae?: FlammabilityLimit;
  readonly isoEn?: FlammabilityLimit;
  /** From elsewhere than the tables of refrigerants. */
  readonly other?: FlammabilityLimit;
  /** As listed for the blend itself. */
  readonly blend?: FlammabilityLimit;
  /** The lowest of them, by volume and by mass each. */
  readonly lowest: FlammabilityLimit;
}

/** Why a mixture has no computed limit: only values tested on it count. */
export type UntestedReason =
  "part-that-does-not-burn" | "fluoro-olefin" | "unlike-fuels" | "oxygen";

/** Whether a fluid or blend burns in air, as far as it is known. */
export type Flammability =
  /** Listed in class 1, or made of nothing but such parts. */
  | { readonly kind: "does-not-burn"; readonly class: SafetyClass | null }
  | {
      readonly kind: "limits";
      readonly class: SafetyClass | null;
      readonly rule: "listed" | "le-chatelier";
      readonly limits: Limits;
    }
  | {
      readonly kind: "only-tests-count";
      readonly class: SafetyClass | null;
      readonly because: UntestedReason;
      readonly fuels: readonly FluidId[];
    }
  /** A part of which it is not known here whether it burns. */
  | {
      readonly kind: "unknown";
      readonly class: SafetyClass | null;
      readonly unknown: readonly FluidId[];
    };

type RatedPart = Part & { readonly facts: SubstanceFacts };

/** Class 1: no flame spreads in the test of the standard. */
const inClass1 = (safety: SafetyClass): boolean => safety.endsWith("1");

/** Whether a part burns; `undefined` if not known here. */
function burns({ facts }: RatedPart): boolean | undefined {
  const safety = usable(facts.class);
  return safety && !inClass1(safety.value);
}

const lowestOf = (limits: readonly FlammabilityLimit[]): FlammabilityLimit => ({
  volume: Math.min(...limits.map(({ volume }) => volume)),
  mass: Math.min(...limits.map(({ mass }) => mass)),
});

function limitsOf(parts: Omit<Limits, "lowest">): Limits | undefined {
  const all = Object.values<FlammabilityLimit>(parts);
  return all.length === 0 ? undefined : { ...parts, lowest: lowestOf(all) };
}

const tables = ["ashrae", "isoEn", "other"] as const;

/** Limits of a pure fluid as listed. */
function listed(part: RatedPart): Limits | undefined {
  const M = molarMassOf(part);
  const entries = tables.flatMap((table) => {
    const found = part.facts.lfl?.[table];
    return found && usable(found.mass) ? [[table, listedLimit(found, M)] as const] : [];
  });
  return limitsOf(Object.fromEntries(entries));
}

/** Le Chatelier's rule on similar fuels, table by table where each part has a limit. */
function combined(parts: readonly RatedPart[]): Omit<Limits, "lowest"> {
  const ofParts = new Map(parts.map((part) => [part.fluid, listed(part)]));
  const entries = (["ashrae", "isoEn"] as const).flatMap((table) => {
    const limit = ({ fluid }: Part) => ofParts.get(fluid)?.[table]?.volume;
    if (parts.some((part) => limit(part) === undefined)) return [];
    return [[table, leChatelier(parts, (part) => limit(part) ?? NaN)] as const];
  });
  return Object.fromEntries(entries);
}

/** Why fuels and the rest are not "similar fuels"; `undefined` if they are. */
function obstacle(
  parts: readonly RatedPart[],
  fuels: readonly RatedPart[],
): UntestedReason | undefined {
  if (parts.some(({ fluid }) => fluid === "R732")) return "oxygen";
  if (parts.some(({ facts }) => facts.family === "fluoroolefin")) return "fluoro-olefin";
  if (fuels.length < parts.length) return "part-that-does-not-burn";
  return fuels.every(({ facts }) => facts.family === "hydrocarbon") ? undefined : "unlike-fuels";
}

/**
 * Whether a fluid or blend burns in air, and from what concentration on.
 *
 * A pure fluid has its listed limits. A blend of hydrocarbons only has those of Le Chatelier's rule, and the lowest
 * known figure warns. For a blend of anything else only values tested on it count, so it has no computed limit; its
 * class is that of its table if it has a name.
 *
 * @param moles  Mole fractions, sum 1; parts of 0 do not count.
 * @param named  The blend these fractions belong to, if it has a name.
 * @throws       RangeError for fractions that make no whole: the caller's bug.
 *
 * Limits: air at 25 °C and 101.325 kPa; the composition as given, while a leak of vapour from a zeotrope is richer in
 * its light parts. Le Chatelier's rule is not for upper limits.
 * Source: ASHRAE 34 clause 6.1 for the classes; le-chatelier.ts for the rule
 * Checked: flammability.test.ts, test/published/blends.test.ts
 */
export function flammabilityOf(moles: readonly Part[], named?: NamedBlend): Flammability {
  molarMass(moles);
  const parts = moles
    .filter(({ fraction }) => fraction > 0)
    .map((part): RatedPart => ({ ...part, facts: substanceFacts(part.fluid) }));
  const [first, ...rest] = parts;
  if (first && rest.length === 0) return ofPure(first);
  const safety = usable(named?.class)?.value ?? null;
  if (safety !== null && inClass1(safety)) return { kind: "does-not-burn", class: safety };
  const unknown = parts.filter((part) => burns(part) === undefined && part.fluid !== "R732");
  if (unknown.length > 0) {
    return { kind: "unknown", class: safety, unknown: unknown.map(({ fluid }) => fluid) };
  }
  const fuels = parts.filter((part) => burns(part) === true);
  if (fuels.length === 0) return { kind: "does-not-burn", class: safety };
  const because = obstacle(parts, fuels);
  const limits = limitsOf({
    ...(because === undefined && combined(parts)),
    ...(named?.lfl && { blend: listedLimit(named.lfl, molarMass(moles)) }),
  });
  const rule = because === undefined ? "le-chatelier" : "listed";
  return limits
    ? { kind: "limits", class: safety, rule, limits }
    : {
        kind: "only-tests-count",
        class: safety,
        because: because ?? "unlike-fuels",
        fuels: fuels.map(({ fluid }) => fluid),
      };
}

function ofPure(part: RatedPart): Flammability {
  const safety = usable(part.facts.class)?.value ?? null;
  if (safety === null) {
    return part.fluid === "R732"
      ? { kind: "does-not-burn", class: null }
      : { kind: "unknown", class: null, unknown: [part.fluid] };
  }
  if (inClass1(safety)) return { kind: "does-not-burn", class: safety };
  const limits = listed(part);
  return limits
    ? { kind: "limits", class: safety, rule: "listed", limits }
    : { kind: "only-tests-count", class: safety, because: "unlike-fuels", fuels: [part.fluid] };
}
