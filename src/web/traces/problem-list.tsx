import { problemNames } from "../../report/index.ts";
import type { TraceProblem, TraceView } from "../../trial/index.ts";

interface Props {
  readonly trace: Pick<TraceView, "rows" | "problems">;
}

/** More than this nobody reads one by one, and a stream adds to it every second. */
const mostShown = 100;

function counted(problems: readonly TraceProblem[]): readonly string[] {
  const counts = new Map<TraceProblem["kind"], number>();
  for (const { kind } of problems) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts].map(([kind, n]) => `${n} × ${problemNames[kind]}`);
}

/** What was kept aside from a file, line by line, with what stood there. */
export function ProblemList({ trace }: Props) {
  const { rows, problems } = trace;
  return (
    <section class="problems" aria-label="Kept aside">
      <p>
        <strong class="figure">{rows.kept}</strong> of <span class="figure">{rows.read}</span> rows
        taken.{" "}
        {problems.length === 0
          ? "Nothing had to be kept aside."
          : `Kept aside: ${counted(problems).join(", ")}.`}
      </p>
      {problems.length > 0 && (
        <details>
          <summary>Show what was kept aside</summary>
          <ul class="aside-list">
            {problems.slice(0, mostShown).map((problem, i) => (
              <li key={i}>
                <strong>Line {problem.line}</strong>
                {problem.column !== undefined && `, ${problem.column}`}: {problem.sentence}
                {problem.raw !== "" && <code>{problem.raw.slice(0, 120)}</code>}
              </li>
            ))}
          </ul>
          {problems.length > mostShown && <p>and {problems.length - mostShown} more</p>}
        </details>
      )}
    </section>
  );
}
