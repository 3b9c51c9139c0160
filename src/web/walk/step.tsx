import type { StageView } from "../../trial/index.ts";
import { ReadingStep } from "../readings/reading-step.tsx";
import { readingsTaken } from "../readings/taken.ts";
import { view } from "../shell/log-keeper.ts";
import { go, goInstead } from "../shell/route.ts";
import { ImportStep } from "../traces/import-step.tsx";
import { RunStep } from "../traces/run-step.tsx";
import { TraceStep } from "../traces/trace-step.tsx";
import { EmptyStep } from "../transfers/empty-step.tsx";
import { TransferStep } from "../transfers/transfer-step.tsx";
import { openPrompts } from "./acts.ts";
import { Cautions } from "./caution-box.tsx";
import { cautionsBefore } from "./caution-places.ts";
import { ConfirmStep } from "./confirm-step.tsx";
import { NoteStep } from "./note-step.tsx";
import { ReadingChoice } from "./reading-choice.tsx";
import { stageParts } from "./stage-key.ts";
import { StepHead } from "./step-head.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly step: readonly string[];
}

/** The act being done: one thing at a time, its caution before it. */
export function Step({ trial, stage, step }: Props) {
  const here = ["trial", trial, ...stageParts(stage)];
  const back = (): void => {
    go(...here);
  };
  const done = (): void => {
    goInstead(...here);
  };
  const shared = { trial, stage, onSaved: done, onCancel: back };
  const [act, what = ""] = step;
  const prompt = stage.prompts.find(({ id }) => id === what);
  switch (act) {
    case "reading":
      if (!prompt) break;
      return (
        <>
          <StepHead stage={stage} title={prompt.label} {...(prompt.why !== undefined && { why: prompt.why })} />
          <Cautions cautions={cautionsBefore(stage, prompt.quantity)} />
          <ReadingStep
            key={prompt.id}
            {...shared}
            prompt={prompt}
            onSaved={() => {
              const next = nextPrompt(stage, prompt.id);
              if (next === undefined) done();
              else goInstead(...here, "reading", next);
            }}
          />
        </>
      );
    case "readings":
      return (
        <>
          <StepHead stage={stage} title="Which reading?" />
          <ReadingChoice trial={trial} stage={stage} onCancel={back} />
        </>
      );
    case "transfer":
      return (
        <>
          <StepHead stage={stage} title="A transfer" why="Each gram goes from one vessel to another, or is lost: say what the scale showed." />
          <Cautions cautions={cautionsBefore(stage, "transfer")} />
          <TransferStep {...shared} />
        </>
      );
    case "empty":
      return (
        <>
          <StepHead stage={stage} title="Found empty" why="What the ledger still expected inside is booked as not accounted for." />
          <EmptyStep {...shared} />
        </>
      );
    case "run":
      return (
        <>
          <StepHead stage={stage} title="A run" />
          <Cautions cautions={cautionsBefore(stage, "run")} />
          <RunStep {...shared} />
        </>
      );
    case "import":
      return (
        <>
          <StepHead stage={stage} title={what === "hold" ? "Import a hold trace" : "Import a logger file"} />
          <Cautions cautions={cautionsBefore(stage, "import")} />
          <ImportStep
            {...shared}
            kind={what === "hold" ? "hold" : "run"}
            onSaved={(trace) => {
              goInstead(...here, "trace", trace);
            }}
          />
        </>
      );
    case "trace":
      return (
        <>
          <StepHead stage={stage} title="What the file holds" />
          <TraceStep trial={trial} stage={stage} trace={what} onDone={done} />
        </>
      );
    case "note":
      return (
        <>
          <StepHead stage={stage} title="A note" />
          <NoteStep {...shared} />
        </>
      );
    case "confirm":
      return <ConfirmStep {...shared} item={what} />;
  }
  return (
    <>
      <StepHead stage={stage} title="This step is not there" />
      <p>The stage asks for other things now. Go back and choose again.</p>
      <button type="button" class="button" onClick={back}>
        Back to the stage
      </button>
    </>
  );
}

/** The next reading that the stage still misses, after this one was saved. */
function nextPrompt(stage: StageView, saved: string): string | undefined {
  const now = view.value.stages.find((one) => one.stage === stage.stage && one.round === stage.round);
  if (!now) return undefined;
  const taken = new Set([...readingsTaken(view.value, now), saved]);
  return openPrompts(now, taken)[0];
}
