import { type Measured } from "../measured.ts";
import { vehicleAccount } from "../ledger/view.ts";
import type { TrialView } from "../view.ts";

/** What went into the vehicle of a product in its largest charge, kg; `undefined` if none did. */
export function chargedMass(view: TrialView, product: string): Measured | undefined {
  const stages = new Map(
    view.entries.flatMap((entry) =>
      "stage" in entry.body ? [[entry.id, entry.body.stage] as const] : [],
    ),
  );
  const byStage = new Map<string, Measured>();
  for (const { entry, to, leg, parts } of view.ledger.postings) {
    if (to !== vehicleAccount || leg !== "moved") continue;
    for (const { substance, mass } of parts) {
      if (substance !== `product:${product}`) continue;
      const stage = stages.get(entry) ?? "";
      const before = byStage.get(stage) ?? { value: 0, u: 0 };
      byStage.set(stage, {
        value: before.value + mass.value,
        u: Math.hypot(before.u, mass.u),
      });
    }
  }
  return [...byStage.values()].sort((a, b) => b.value - a.value)[0];
}
