import { readingName, unitChoice, unitOfRunValue, VerdictWord } from "../../report/index.ts";
import type { RunValue, RunView, TrialView } from "../../trial/index.ts";
import { judging } from "../readings/judging.ts";

interface Props {
  readonly run: RunView;
  readonly view: TrialView;
}

const standings: Readonly<Record<RunValue["standing"], string>> = {
  typed: "as typed",
  settled: "settled",
  "still-moving": "still moving",
  cycling: "cycling",
};

/** What a run gives to a comparison: each value with its 95 % interval and whether it had settled. */
export function RunFigures({ run, view }: Props) {
  return (
    <section class="run-figures">
      <h3>{run.name}</h3>
      {run.values.length === 0 && (
        <p class="quiet">No readings yet: type them, or import a logger’s file.</p>
      )}
      {run.values.length > 0 && (
        <table class="table">
          <caption>Values with 95 % intervals</caption>
          <tbody>
            {run.values.map((value) => (
              <Figure key={`${value.quantity} ${value.form}`} value={value} run={run} view={view} />
            ))}
          </tbody>
        </table>
      )}
      {run.unusable.map(({ quantity, reason }) => (
        <p key={quantity} class="quiet">
          {readingName(quantity, "steady")}: {reason}
        </p>
      ))}
    </section>
  );
}

/** One figure with its interval, and where it stands against the model of the vehicle. */
function Figure({ value, run, view }: Props & { readonly value: RunValue }) {
  const unit = unitOfRunValue(value, view.readings, view.traces);
  const shown = unitChoice(view, "as-typed").quantity(value.quantity, unit);
  const verdict =
    unit === undefined ? undefined : judging.value?.judgeRunValue(view, run, value, unit);
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
