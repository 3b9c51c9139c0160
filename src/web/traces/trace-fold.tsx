import { traceTitle } from "../../report/index.ts";
import type { StageView, TraceView, TrialView } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { pathTo } from "../shell/route.ts";
import { stageParts } from "../walk/stage-key.ts";
import { findingOf, HoldVerdict } from "./hold-verdict.tsx";
import { pageOf, TracePicture } from "./trace-picture.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: TraceView;
  readonly view: TrialView;
  readonly open: boolean;
}

/** A file of the log behind its name and what it found. */
export const TraceFold = ({ trial, stage, trace, view, open }: Props) => (
  <Fold row open={open} title={trace.fileName} said={<Found trace={trace} view={view} />}>
    <TracePicture trace={trace} view={view} />
    <a class="button" href={pathTo("trial", trial, ...stageParts(stage), "trace", trace.id)}>
      Look into this file
    </a>
  </Fold>
);

function Found({ trace, view }: Pick<Props, "trace" | "view">) {
  if (trace.kind !== "hold")
    return <>{traceTitle(trace, pageOf(view)).replace(`${trace.fileName}: `, "")}</>;
  const finding = findingOf(view, trace);
  return finding ? <HoldVerdict finding={finding} /> : null;
}
