import type { FaultQuestion } from "../../trial/index.ts";

type Asked = Extract<FaultQuestion, { kind: "asked" }>;

/** What an answer rests on: its runs by number, the baseline, what was assumed, what was left out. */
export function DiagnosisBasis({ question }: { readonly question: Asked }) {
  const { runs, baseline, assumed, left } = question;
  return (
    <details class="numbers">
      <summary>{headOf(question)}</summary>
      <ul class="diagnosis-notes">
        {runs.map(({ id, name }, k) => (
          <li key={id}>{runs.length > 1 ? `Run ${k + 1}: ${name}` : `Run: ${name}`}</li>
        ))}
        {baseline.length > 0 && <li>Baseline of the sound vehicle: {baseline.join("; ")}.</li>}
        {assumed.map(({ text, runs: places }) => (
          <li key={text}>
            Assumed: {text}
            {places.length < runs.length &&
              ` (run${places.length > 1 ? "s" : ""} ${places.map((k) => k + 1).join(", ")})`}
            .
          </li>
        ))}
        {left.map(({ name, why }) => (
          <li key={name}>
            Not used: {name}, because {why}.
          </li>
        ))}
      </ul>
    </details>
  );
}

function headOf({ runs, baseline }: Asked): string {
  const what = runs.length > 1 ? `${runs.length} runs judged together` : "One run";
  const count = baseline.length > 1 ? `${baseline.length} runs` : "one run";
  return baseline.length > 0 ? `${what}, with ${count} of Prove as the baseline` : what;
}
