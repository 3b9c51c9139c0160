import { type VerdictKind, VerdictWord } from "../../report/index.ts";
import type { HoldFinding, TraceView, TrialView } from "../../trial/index.ts";
import { judging } from "../readings/judging.ts";

const kinds: Readonly<Record<HoldFinding["analysis"]["cause"], VerdictKind>> = {
  tight: "within",
  outgassing: "undecided",
  undecided: "undecided",
  wet: "higher",
  leaking: "higher",
};

/** What a hold means, in its word; nothing until the verdicts' part of the app is here. */
export function HoldVerdict({ finding }: { readonly finding: HoldFinding }) {
  return <VerdictWord kind={kinds[finding.analysis.cause]} word={finding.word} />;
}

const found = new WeakMap<
  TraceView,
  { readonly view: TrialView; readonly finding: HoldFinding | undefined }
>();

/** Of one trace in one view, worked out once: several parts of a page say it. */
export function findingOf(view: TrialView, trace: TraceView): HoldFinding | undefined {
  const judge = judging.value;
  if (!judge || trace.kind !== "hold") return undefined;
  const before = found.get(trace);
  if (before?.view === view) return before.finding;
  const finding = judge.holdFinding(view, trace);
  found.set(trace, { view, finding });
  return finding;
}
