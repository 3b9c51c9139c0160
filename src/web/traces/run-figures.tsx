import { readingName, unitChoice, unitOfRunValue } from "../../report/index.ts";
import type { RunValue, RunView, TrialView } from "../../trial/index.ts";

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
  const units = unitChoice(view, "as-typed");
  return (
    <section class="run-figures">
      <h3>{run.name}</h3>
      {run.values.length === 0 && <p class="quiet">No readings yet: type them, or import a logger’s file.</p>}
      {run.values.length > 0 && (
        <table class="table">
          <caption>Values with 95 % intervals</caption>
          <tbody>
            {run.values.map((value) => (
              <tr key={`${value.quantity} ${value.form}`}>
                <th scope="row">{readingName(value.quantity, value.form)}</th>
                <td class="figure">
                  {units
                    .quantity(value.quantity, unitOfRunValue(value, view.readings, view.traces))
                    .pair({ value: value.value, u: value.u })}
                </td>
                <td>
                  {standings[value.standing]}
                  {value.uInstrument === undefined && <small class="quiet"> · no instrument named</small>}
                </td>
              </tr>
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
