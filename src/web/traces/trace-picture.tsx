import { useId, useMemo } from "preact/hooks";
import {
  conditionNames,
  FoldedTable,
  HoldChart,
  holdPicture,
  holdTable,
  HoldWords,
  type Page,
  TraceChart,
  tracePicture,
  traceTable,
  unitChoice,
} from "../../report/index.ts";
import type { TraceView, TrialView } from "../../trial/index.ts";
import { judging } from "../readings/judging.ts";
import { Fit } from "../look/fit.tsx";
import { SavePicture } from "../pictures/save-picture.tsx";
import { findingOf } from "./hold-verdict.tsx";

interface Props {
  readonly trace: TraceView;
  readonly view: TrialView;
}

/** What the report's pictures need; nothing here is dated, since nothing is printed. */
export const pageOf = (view: TrialView): Page => ({
  view,
  units: unitChoice(view, "as-typed"),
  judge: (reading) => judging.value?.judgeReading(view, reading),
  generatedAt: "",
  events: view.entries.length,
});

const NOTE = "Coldproof. Drawn from the trial's log.";

/** A trace over time with its runs and what was kept aside; a hold as pressure over time. */
export function TracePicture({ trace, view }: Props) {
  return trace.kind === "hold" ? (
    <Hold trace={trace} view={view} />
  ) : (
    <Lines trace={trace} view={view} />
  );
}

function Hold({ trace, view }: Props) {
  const id = `hold${useId()}`;
  // A verdict that comes later draws its level and its curves into the hold.
  const judge = judging.value;
  const finding = findingOf(view, trace);
  const picture = useMemo(
    () => holdPicture(trace, pageOf(view), finding),
    [trace, view, finding, judge],
  );
  if (!picture) return <p class="quiet">No column of this file was named as a vacuum.</p>;
  return (
    <Fit>
      {(width) => (
        <>
          <HoldChart {...picture} id={id} width={width} />
          {finding && <HoldWords finding={finding} />}
          <FoldedTable table={holdTable({ ...picture, id, width })} />
          <SavePicture
            picture={{
              title: picture.title,
              note: NOTE,
              draw: (wide) => <HoldChart {...picture} id={id} width={wide} />,
            }}
          />
        </>
      )}
    </Fit>
  );
}

/** The report's picture; until a run is confirmed, the proposed intervals stand in it, each with a question. */
function withProposals(trace: TraceView, view: TrialView) {
  const picture = tracePicture(trace, pageOf(view));
  if (picture.intervals.length > 0) return picture;
  const intervals = trace.proposals.map(({ fromSeconds, toSeconds, condition }) => ({
    from: fromSeconds,
    to: toSeconds,
    label: `${conditionNames[condition]}?`,
  }));
  return { ...picture, intervals };
}

function Lines({ trace, view }: Props) {
  const id = `trace${useId()}`;
  const picture = useMemo(() => withProposals(trace, view), [trace, view]);
  return (
    <Fit>
      {(width) => (
        <>
          <TraceChart {...picture} id={id} width={width} />
          <FoldedTable table={traceTable({ ...picture, id, width })} />
          <SavePicture
            picture={{
              title: picture.title,
              note: NOTE,
              draw: (wide) => <TraceChart {...picture} id={id} width={wide} />,
            }}
          />
        </>
      )}
    </Fit>
  );
}
