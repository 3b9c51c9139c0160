import { useId } from "preact/hooks";
import { HoldChart, shortNames, shownIn, TraceChart, unitChoice } from "../../report/index.ts";
import type { TraceView, TrialView } from "../../trial/index.ts";
import { Fit } from "../look/fit.tsx";

interface Props {
  readonly trace: TraceView;
  readonly view: TrialView;
}

/** A trace over time with its runs and what was kept aside; a hold as pressure over time. */
export function TracePicture({ trace, view }: Props) {
  return trace.kind === "hold" ? <Hold trace={trace} /> : <Lines trace={trace} view={view} />;
}

function Hold({ trace }: { readonly trace: TraceView }) {
  const id = `hold${useId()}`;
  const vacuum = trace.series.find(({ quantity }) => quantity === "vacuum");
  if (!vacuum) return <p class="quiet">No column of this file was named as a vacuum.</p>;
  return (
    <Fit>
      {(width) => (
        <HoldChart
          id={id}
          title={`Pressure with the pump shut off: ${trace.fileName}`}
          t={vacuum.t}
          p={vacuum.values}
          shown={shownIn(vacuum.unit)}
          levels={[]}
          width={width}
        />
      )}
    </Fit>
  );
}

const secondsOf = (trace: TraceView, clock: string): number =>
  (Date.parse(`${clock}Z`) - Date.parse(`${trace.start}Z`)) / 1000;

function Lines({ trace, view }: Props) {
  const id = `trace${useId()}`;
  const units = unitChoice(view, "as-typed");
  const runs = view.runs.filter((run) => run.trace === trace.id);
  const intervals =
    runs.length > 0
      ? runs.flatMap(({ from, to, name }) =>
          from === undefined || to === undefined
            ? []
            : [{ from: secondsOf(trace, from), to: secondsOf(trace, to), label: name }],
        )
      : [];
  return (
    <Fit>
      {(width) => (
        <TraceChart
          id={id}
          title={trace.fileName}
          lines={trace.series.map((series) => ({
            label: shortNames[series.quantity],
            shown: units.quantity(series.quantity, series.unit),
            t: series.t,
            values: series.values,
            settled: [],
          }))}
          intervals={intervals}
          gaps={[]}
          problems={[]}
          width={width}
        />
      )}
    </Fit>
  );
}
