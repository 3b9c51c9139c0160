import { fairVerdict, type FairVerdict } from "../../evidence/index.ts";
import { type RandomEffects, randomEffects } from "../../inference/index.ts";
import { given } from "../given.ts";
import { logSeal } from "../integrity.ts";
import { project } from "../project.ts";
import type { ReadingForm } from "../events.ts";
import type { ProductView, RunView, StoredEvent, TrialView } from "../view.ts";
import { fairComparisonOf } from "./fair-comparison.ts";

/** One trial's effect on the vent temperature in equal conditions. */
export interface TrialEffect {
  readonly trial: string;
  readonly title: string;
  readonly vehicle?: string;
  /** K, product minus label refrigerant, with its standard uncertainty. */
  readonly effect: number;
  readonly u: number;
  readonly margin: number;
}

/** The same product against the same label refrigerant in one condition, over trials. */
export interface CombinedEffect {
  readonly product: string;
  readonly label: string;
  readonly condition: RunView["condition"];
  readonly form: ReadingForm;
  readonly trials: readonly TrialEffect[];
  /** From two trials on. */
  readonly summary?: RandomEffects;
  /** Of the summary's interval against the smallest margin of the trials. */
  readonly verdict?: FairVerdict;
}

export interface CombinedTrials {
  readonly groups: readonly CombinedEffect[];
  /** Sentences: what could not be taken and why. */
  readonly leftOut: readonly string[];
}

/** Trials of one product: the declared fluid where there is one, else the name without its case and spaces. */
const productKey = ({ fluid, name }: ProductView): string =>
  fluid ?? name.normalize("NFKC").trim().replace(/\s+/g, " ").toLowerCase();

/**
 * What several trials say together about each product's effect on the vent temperature in equal conditions.
 *
 * A trial counts once: the same log again, or a redacted copy beside its original, is left out.
 *
 * @param logs  Each of one trial. Takes a second or more each.
 * Source: docs/models/combining.md
 */
export function combinedTrials(logs: readonly (readonly StoredEvent[])[]): CombinedTrials {
  const leftOut: string[] = [];
  const groups = new Map<string, Omit<CombinedEffect, "trials"> & { trials: TrialEffect[] }>();
  for (const view of distinctTrials(logs, leftOut)) {
    const title = view.opened?.title ?? "A trial without its question";
    const found = fairComparisonOf(view);
    if (found.kind === "none") {
      leftOut.push(`${title}: ${found.why}`);
      continue;
    }
    for (const row of found.rows.filter(({ quantity }) => quantity === "vent")) {
      const product = view.products.find(({ id }) => id === row.product);
      const { condition, form, margin, equalConditions } = row;
      const label = view.vehicle?.labelRefrigerant ?? "";
      if (!product) continue;
      const key = JSON.stringify([productKey(product), label, condition, form]);
      const group = groups.get(key) ?? {
        ...{ product: product.fluid ?? product.name, label, condition, form },
        trials: [],
      };
      groups.set(key, group);
      const trial = view.trial ?? "";
      if (group.trials.some((one) => one.trial === trial)) {
        leftOut.push(
          `${title}: ${product.name} is a second product of that kind in one trial; both hang on one baseline, so the first counts.`,
        );
        continue;
      }
      const { value: effect, u } = equalConditions;
      group.trials.push(given({ trial, title, vehicle: view.vehicle?.name, effect, u, margin }));
    }
  }
  return { groups: [...groups.values()].map(withSummary), leftOut };
}

function withSummary(group: Omit<CombinedEffect, "summary" | "verdict">): CombinedEffect {
  const usable = group.trials.every(({ u }) => u > 0);
  if (group.trials.length < 2 || !usable) return group;
  const summary = randomEffects(group.trials);
  const margin = Math.min(...group.trials.map((one) => one.margin));
  return { ...group, summary, verdict: fairVerdict("vent", summary.interval, margin) };
}

/** Each trial once, whether it comes as itself or redacted. */
function distinctTrials(
  logs: readonly (readonly StoredEvent[])[],
  leftOut: string[],
): readonly TrialView[] {
  const seen = new Set<string>();
  return logs.flatMap((log) => {
    const view = project(log);
    const originals = view.entries.flatMap((entry) =>
      entry.type === "log-redacted" ? [entry.body.originalSeal] : [],
    );
    const names = [view.trial ?? "", logSeal(log), ...originals];
    const title = view.opened?.title ?? "A trial without its question";
    if (names.some((name) => seen.has(name))) {
      leftOut.push(`${title}: given twice, or beside a redacted copy of itself; it counts once.`);
      return [];
    }
    for (const name of names) seen.add(name);
    return [view];
  });
}
