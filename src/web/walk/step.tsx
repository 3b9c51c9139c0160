import type { ComponentChildren } from "preact";
import type { ReadingPrompt, StageView } from "../../trial/index.ts";
import { ReadingStep } from "../readings/reading-step.tsx";
import { readingsTaken } from "../readings/taken.ts";
import { view } from "../shell/log-keeper.ts";
import { go, goInstead } from "../shell/route.ts";
import { SampleStep } from "../identify/sample-step.tsx";
import { ImportStep } from "../traces/import-step.tsx";
import { RunStep } from "../traces/run-step.tsx";
import { HoldStep } from "../traces/hold-step.tsx";
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
import { later } from "../shell/later.tsx";

/** Draws on the equations of the fluids, which the other steps need not wait for. */
const ClaimStep = later(async () => (await import("../claims/claim-step.tsx")).ClaimStep);

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly step: readonly string[];
}

/** What every act is given, and the ways out of it. */
interface Act {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

const placeOf = ({ trial, stage }: Pick<Act, "trial" | "stage">): readonly string[] => [
  "trial",
  trial,
  ...stageParts(stage),
];

/** The act being done: one thing at a time, its caution before it. */
export function Step({ trial, stage, step }: Props) {
  const place = placeOf({ trial, stage });
  const act: Act = {
    trial,
    stage,
    onSaved: () => {
      goInstead(...place);
    },
    onCancel: () => {
      go(...place);
    },
  };
  const [name, what = ""] = step;
  const prompt = stage.prompts.find(({ id }) => id === what);
  switch (name) {
    case "reading":
      return prompt ? <Reading act={act} prompt={prompt} /> : <NoStep {...act} />;
    case "readings":
      return headed(stage, { title: "Which reading?" }, <ReadingChoice {...act} />);
    case "transfer":
      return headed(stage, heads.transfer, <TransferStep {...act} />);
    case "empty":
      return headed(stage, heads.empty, <EmptyStep {...act} />);
    case "run":
      return headed(stage, heads.run, <RunStep {...act} />);
    case "import":
      return <Import act={act} kind={what === "hold" ? "hold" : "run"} />;
    case "hold":
      return <Hold act={act} />;
    case "trace":
      return headed(
        stage,
        { title: "What the file holds" },
        <TraceStep trial={trial} stage={stage} trace={what} onDone={act.onSaved} />,
      );
    case "note":
      return headed(stage, { title: "A note" }, <NoteStep {...act} />);
    case "test":
      return headed(stage, heads.test, <SampleStep {...act} />);
    case "claim":
      return headed(
        stage,
        heads.claim,
        <ClaimStep {...act} product={what} place={Number(step[2])} />,
      );
    case "confirm":
      return <ConfirmStep {...act} item={what} />;
    case undefined:
    default:
      return <NoStep {...act} />;
  }
}

interface Head {
  readonly title: string;
  readonly why?: string;
  /** Act or quantity by which its cautions are found. */
  readonly before?: string;
}

const heads = {
  transfer: {
    title: "A transfer",
    why: "Each gram goes from one vessel to another, or is lost: say what the scale showed.",
    before: "transfer",
  },
  empty: {
    title: "Found empty",
    why: "What the ledger still expected inside is booked as not accounted for.",
  },
  run: { title: "A run", before: "run" },
  test: {
    title: "What a tester said",
    why: "An identifier’s percentages, or a detector’s yes or no on a trace of vapour. Release nothing for it, and never use a flame.",
  },
  claim: {
    title: "How this claim is read",
    why: "If the sentence means something else than its words were taken for, say so. The entry stays in the log and can be withdrawn there.",
  },
} as const satisfies Record<string, Head>;

/** An act under its heading, its cautions between them. */
const headed = (stage: StageView, { before, ...head }: Head, act: ComponentChildren) => (
  <>
    <StepHead stage={stage} {...head} />
    {before !== undefined && <Cautions cautions={cautionsBefore(stage, before)} />}
    {act}
  </>
);

function Reading({ act, prompt }: { readonly act: Act; readonly prompt: ReadingPrompt }) {
  const { stage, onSaved } = act;
  const goOn = (): void => {
    const next = nextPrompt(stage, prompt.id);
    if (next === undefined) onSaved();
    else goInstead(...placeOf(act), "reading", next);
  };
  const { label: title, why, quantity: before } = prompt;
  return headed(
    stage,
    { title, before, ...(why !== undefined && { why }) },
    <ReadingStep key={prompt.id} {...act} prompt={prompt} onSaved={goOn} />,
  );
}

function Import({ act, kind }: { readonly act: Act; readonly kind: "run" | "hold" }) {
  const title = kind === "hold" ? "Import a hold trace" : "Import a logger file";
  const lookInto = (trace: string): void => {
    goInstead(...placeOf(act), "trace", trace);
  };
  return headed(
    act.stage,
    { title, before: kind === "hold" ? "import-hold" : "import" },
    <ImportStep {...act} kind={kind} onSaved={lookInto} />,
  );
}

function Hold({ act }: { readonly act: Act }) {
  const lookInto = (trace: string): void => {
    goInstead(...placeOf(act), "trace", trace);
  };
  return headed(
    act.stage,
    {
      title: "Watch the hold",
      why: "Close the valve to the pump, and read the gauge every minute or two for a quarter of an hour.",
      before: "import-hold",
    },
    <HoldStep {...act} onSaved={lookInto} />,
  );
}

const NoStep = ({ stage, onCancel }: Act) => (
  <>
    <StepHead stage={stage} title="This step is not there" />
    <p>The stage asks for other things now. Go back and choose again.</p>
    <button type="button" class="button" onClick={onCancel}>
      Back to the stage
    </button>
  </>
);

/** The next reading that the stage still misses, after this one was saved. */
function nextPrompt(stage: StageView, saved: string): string | undefined {
  const now = view.value.stages.find(
    (one) => one.stage === stage.stage && one.round === stage.round,
  );
  if (!now) return undefined;
  const taken = new Set([...readingsTaken(view.value, now), saved]);
  return openPrompts(now, saved, taken)[0];
}
