import type { Margins } from "../../evidence/index.ts";
import { ofType } from "../plan.ts";
import type { EntryOf, TrialView } from "../view.ts";

/** What counts as a difference that matters, and when that was said. */
export interface PlannedMargin {
  readonly margins: Margins;
  /** The vent's margin was set in Plan, or is the default. */
  readonly from: "plan" | "default";
  /** It was set, or changed, after the first run had been recorded. */
  readonly late: boolean;
  /** The same in sentences. */
  readonly said: readonly string[];
}

/** 1 K at the vent; 0.3 bar low and 1 bar high move R134a by about 3 K of saturation (a choice, no source). */
const defaults: Margins = { vent: 1, low: 30e3, high: 100e3 };

/** The margins of a trial: the vent's from its plan, those of pressures always the defaults. */
export function marginsOf(view: TrialView): PlannedMargin {
  const margin = view.opened?.margin;
  const opening = ofType(view.entries, "trial-opened").findLast(({ withdrawn }) => !withdrawn);
  const firstRun = Math.min(
    ...ofType(view.entries, "run-recorded").map(({ at }) => Date.parse(at)),
  );
  const late = margin !== undefined && opening !== undefined && marginSetAt(opening) > firstRun;
  return {
    margins: { ...defaults, vent: margin ?? defaults.vent },
    from: margin === undefined ? "default" : "plan",
    late,
    said: [
      margin === undefined
        ? "No margin was set in Plan: 1 K at the vent stands for it."
        : late
          ? "The margin at the vent was entered after the first run had been recorded, so it was not fixed before the data."
          : "The margin at the vent was fixed in Plan, before the first run.",
      "Margins of the pressures are 0.3 bar low and 1 bar high, a choice of this tool.",
    ],
  };
}

/** When the margin got the value that holds, by the clock of the log. */
function marginSetAt({ at, original, body, corrections }: EntryOf<"trial-opened">): number {
  const same = JSON.stringify(original.margin) === JSON.stringify(body.margin);
  const correction = corrections.find(({ effective }) => effective);
  return Date.parse(same || !correction ? at : correction.at);
}
