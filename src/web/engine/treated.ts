import { signal } from "@preact/signals";
import { type Caution, cautionsAt, type StageView, type Treatment } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";

interface Treated {
  readonly trial: string | undefined;
  readonly products: ReadonlyMap<string, Treatment>;
}
const held = signal<Treated>();

/** What the open trial's products are handled as; undefined while that is not known. */
export function keepTreated(treated: Treated | undefined): void {
  held.value = treated;
}

/** A stage's cautions by what was weighed; until then those of the worst that a can may hold. */
export function cautionsNow(stage: StageView): readonly Caution[] {
  const treated = held.value;
  const seen = view.value;
  return treated && treated.trial === seen.trial
    ? cautionsAt(seen, stage, treated.products)
    : stage.cautions;
}
