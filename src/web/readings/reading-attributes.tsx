import type { ReadingPrompt, StageView } from "../../trial/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import type { Draft } from "../shell/drafts.ts";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { instrumentsFor } from "./instruments.ts";
import { belongsToRun, readingInstrument, readingRun } from "./reading-draft.ts";

interface Props {
  readonly stage: StageView;
  readonly prompt: ReadingPrompt;
  readonly draft: Draft;
  readonly change: (part: Draft) => void;
}

/** What else makes a reading evidence: the instrument, the run it belongs to, a remark. */
export const ReadingAttributes = (props: Props) => (
  <>
    <Instrument {...props} />
    <Run {...props} />
    <Remark {...props} />
  </>
);

function Instrument({ prompt, draft, change }: Props) {
  const instruments = instrumentsFor(view.value, prompt);
  return (
    <FieldFrame
      id="reading-instrument"
      label="Instrument"
      hint="Without one the reading carries no uncertainty."
    >
      {instruments.length === 0 ? (
        <p class="inline-way">
          None is listed for this.{" "}
          <a href={pathTo("trial", view.value.trial ?? "", "add", "instrument")}>
            List an instrument
          </a>
        </p>
      ) : (
        <Pick
          id="reading-instrument"
          options={instruments.map(({ id, name }) => ({ value: id, label: name }))}
          value={readingInstrument(view.value, prompt, draft)}
          empty="Not named"
          onChange={(instrument) => {
            change({ instrument });
          }}
        />
      )}
    </FieldFrame>
  );
}

function Run({ stage, prompt, draft, change }: Props) {
  const seen = view.value;
  const runs = seen.runs.filter((run) => run.stage === stage.stage && run.round === stage.round);
  if (!belongsToRun(prompt) || runs.length === 0) return null;
  return (
    <FieldFrame id="reading-run" label="Run it belongs to">
      <Pick
        id="reading-run"
        options={runs.map(({ id, name }) => ({ value: id, label: name }))}
        value={readingRun({ view: seen, stage, prompt, draft })}
        empty="No run"
        onChange={(run) => {
          change({ run });
        }}
      />
    </FieldFrame>
  );
}

const Remark = ({ draft, change }: Props) => (
  <details class="more" open={(draft["note"] ?? "") !== ""}>
    <summary>Add a remark</summary>
    <FieldFrame id="reading-note" label="Remark">
      <textarea
        id="reading-note"
        class="text"
        rows={2}
        value={draft["note"] ?? ""}
        onInput={(event) => {
          change({ note: event.currentTarget.value });
        }}
      />
    </FieldFrame>
  </details>
);
