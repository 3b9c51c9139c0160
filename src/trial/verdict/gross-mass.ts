import type { TrialView } from "../view.ts";
import { measure } from "./context.ts";
import type { ReadingInContext, Verdict } from "./view.ts";
import { withoutBand } from "./words.ts";

/** A vessel on the scale against its tare and what the ledger says it holds. */
export function judgeGrossMass(view: TrialView, reading: ReadingInContext): Verdict {
  const { value, u = 0 } = measure(view, reading);
  const bare = withoutBand({ value, u });
  const vessel = view.vessels.find(({ id }) => id === reading.vessel);
  const account = view.ledger.accounts.find(({ id }) => id === reading.vessel);
  if (vessel?.tare === undefined || !account) {
    return bare("needs a tare", "Choose a vessel with a known tare to compare with the ledger.");
  }
  const expected = vessel.tare + account.mass.value;
  const spread = 2 * Math.hypot(account.mass.u, u);
  const off = value - expected;
  const kind = Math.abs(off) <= spread ? "within" : off > 0 ? "higher" : "lower";
  return {
    kind,
    word: { within: "closes", higher: "too heavy", lower: "too light" }[kind],
    sentence: {
      within: `${vessel.name} weighs what the ledger says.`,
      higher: `${vessel.name} holds more than the ledger says: a transfer is missing or a weighing is wrong.`,
      lower: `${vessel.name} holds less than the ledger says: a transfer or a leak is missing, or a weighing is wrong.`,
    }[kind],
    reading: { value, u },
    band: { from: expected - spread, to: expected + spread, expected },
    basis: "Tare plus the ledger's contents",
    details: [],
    sources: ["JCGM 100:2008 (uncertainty)"],
  };
}
