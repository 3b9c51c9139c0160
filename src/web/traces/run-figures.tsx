import { useMemo } from "preact/hooks";
import { readingName, unitChoice, unitOfRunValue, VerdictWord } from "../../report/index.ts";
import type { RunValue, RunView, TrialView, Verdict } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { isWide } from "../look/is-wide.ts";
import type { JudgeModule } from "../readings/judge.ts";
import { judging } from "../readings/judging.ts";
import { VerdictCounts } from "../readings/verdict-counts.tsx";

interface Props {
  readonly run: RunView;
  readonly view: TrialView;
  /** Left out, at a desk only. */
  readonly open?: boolean;
}

const standings: Readonly<Record<RunValue["standing"], string>> = {
  typed: "as typed",
  settled: "settled",
  "still-moving": "still moving",
  cycling: "cycling",
};

/** Undefined while the verdicts' part of the app is not here, and where nothing can be expected. */
function verdictOf(
  judge: JudgeModule | undefined,
  { run, view, value }: Props & { readonly value: RunValue },
): Verdict | undefined {
  const unit = unitOfRunValue(value, view.readings, view.traces);
  return unit === undefined ? undefined : judge?.judgeRunValue(view, run, value, unit);
}

/** A run behind its name and its verdicts. */
export function RunFold({ run, view, open = isWide() }: Props) {
  const judge = judging.value;
  const verdicts = useMemo(
    () => run.values.map((value) => verdictOf(judge, { run, view, value })),
    [judge, run, view],
  );
  const judged = run.values.flatMap(({ quantity, form }, i) => {
    const verdict = verdicts[i];
    return verdict ? [{ title: readingName(quantity, form), ...verdict }] : [];
  });
  return (
    <Fold
      row
      open={open}
      title={run.name}
      said={judged.length > 0 && <VerdictCounts judged={judged} />}
    >
      <RunFigures run={run} view={view} verdicts={verdicts} />
    </Fold>
  );
}

interface FiguresProps extends Props {
  /** One a value. */
  readonly verdicts: readonly (Verdict | undefined)[];
}

/** What a run gives to a comparison: each value with its 95 % interval and whether it had settled. */
function RunFigures({ run, view, verdicts }: FiguresProps) {
  return (
    <div class="run-figures">
      {run.values.length === 0 && (
        <p class="quiet">No readings yet: type them, or import a logger’s file.</p>
      )}
      {run.values.length > 0 && (
        <table class="table">
          <caption>Values with 95 % intervals</caption>
          <tbody>
            {run.values.map((value, i) => (
              <Figure
                key={`${value.quantity} ${value.form}`}
                {...{ value, view, verdict: verdicts[i] }}
              />
            ))}
          </tbody>
        </table>
      )}
      {run.unusable.map(({ quantity, reason }) => (
        <p key={quantity} class="quiet">
          {readingName(quantity, "steady")}: {reason}
        </p>
      ))}
    </div>
  );
}

interface FigureProps {
  readonly value: RunValue;
  readonly view: TrialView;
  readonly verdict: Verdict | undefined;
}

/** One figure with its interval, and where it stands against the model of the vehicle. */
function Figure({ value, view, verdict }: FigureProps) {
  const unit = unitOfRunValue(value, view.readings, view.traces);
  const shown = unitChoice(view, "as-typed").quantity(value.quantity, unit);
  return (
    <tr>
      <th scope="row">
        {readingName(value.quantity, value.form)}
        {verdict?.band && (
          <small class="quiet">
            expected {shown.text(verdict.band.from)} to {shown.text(verdict.band.to)}
          </small>
        )}
      </th>
      <td>
        <span class="figure">{shown.pair({ value: value.value, u: value.u })}</span>
        {verdict && <VerdictWord kind={verdict.kind} word={verdict.word} />}
        <small class="quiet">
          {standings[value.standing]}
          {value.uInstrument === undefined && ", no instrument named"}
        </small>
      </td>
    </tr>
  );
}
