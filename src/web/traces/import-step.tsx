import { useMemo, useState } from "preact/hooks";
import {
  type Inspection,
  inspectTable,
  type Mapping,
  quantityNames,
  readTrace,
  type StageView,
} from "../../trial/index.ts";
import { ActionBar } from "../forms/action-bar.tsx";
import { changeDraft, type Draft, draftOf, forgetDraft } from "../shell/drafts.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { ChooseFile } from "./choose-file.tsx";
import { ColumnMapping } from "./column-mapping.tsx";
import { doubled, isRemembered, mappingOf, rememberMapping, startMapping } from "./mapping.ts";
import { ProblemList } from "./problem-list.tsx";
import { SampleRows } from "./sample-rows.tsx";
import { TimeMapping } from "./time-mapping.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly kind: "run" | "hold";
  readonly onSaved: (trace: string) => void;
  readonly onCancel: () => void;
}

/** Takes in a logger's file: what its columns mean is confirmed by the user, and remembered. */
export function ImportStep({ trial, stage, kind, onSaved, onCancel }: Props) {
  const key = `import ${kind} ${stage.stage} ${stage.round ?? "-"}`;
  const draft = draftOf(key);
  const content = draft["content"] ?? "";
  const inspection = useMemo(() => inspectTable(content), [content]);
  if (content === "") {
    return (
      <ChooseFile
        onFile={(fileName, text) => {
          changeDraft(key, { fileName, content: text, ...startMapping(inspectTable(text)) });
        }}
      />
    );
  }
  const change = (part: Draft): void => {
    changeDraft(key, part);
  };
  return (
    <Confirm
      {...{ trial, stage, kind, draft, inspection, change, onCancel }}
      onOther={() => {
        forgetDraft(key);
      }}
      onSaved={(trace) => {
        forgetDraft(key);
        onSaved(trace);
      }}
    />
  );
}

interface ConfirmProps extends Props {
  readonly draft: Draft;
  readonly inspection: Inspection;
  readonly change: (part: Draft) => void;
  readonly onOther: () => void;
}

function Confirm(props: ConfirmProps) {
  const { draft, inspection, change } = props;
  const [failure, setFailure] = useState<string>();
  const content = draft["content"] ?? "";
  const mapping = mappingOf(view.value, inspection, draft);
  const asText = JSON.stringify(mapping);
  const trace = useMemo(
    () => mapping && readTrace(content, mapping, view.value.atmosphere.value),
    // The mapping is new with every render; its text says whether it changed.
    [content, asText],
  );
  return (
    <form
      class="import-step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void saveFile(props, mapping).then(setFailure);
      }}
    >
      <FileHead {...props} />
      <SampleRows inspection={inspection} />
      <TimeMapping inspection={inspection} draft={draft} change={change} />
      {inspection.headings.map((heading, i) =>
        heading === draft["time.column"] ? null : (
          <ColumnMapping key={heading} {...{ inspection, heading, draft, change }} index={i} />
        ),
      )}
      {trace && <ProblemList trace={trace} />}
      {failure !== undefined && (
        <p class="objections" role="alert">
          Not saved. {failure}
        </p>
      )}
      <ActionBar saveLabel="Save the file" onCancel={props.onCancel} />
    </form>
  );
}

function FileHead({ draft, inspection, onOther }: ConfirmProps) {
  const known = isRemembered(inspection);
  return (
    <>
      <p>
        <strong>{draft["fileName"]}</strong> · {inspection.rowCount} rows,{" "}
        {inspection.headings.length} columns.{" "}
        <button type="button" class="plain" onClick={onOther}>
          Choose another file
        </button>
      </p>
      <p class={known ? "told" : "quiet"}>
        {known
          ? "These headings were confirmed before; what you said then stands below."
          : "The headings suggest the meanings below. Look at each before you save; they are remembered for the next file like it."}
      </p>
    </>
  );
}

/** What stands in the way of a mapping, if anything does. */
function objectionTo(mapping: Mapping | undefined): string | undefined {
  if (!mapping) return "Name the time column and say what at least one other column is.";
  const [twice] = doubled(mapping);
  return twice && `Two columns are ${quantityNames[twice]}. Leave one of them out.`;
}

/** Puts the file into the log; what hindered it, if anything did. */
async function saveFile(
  { trial, stage, kind, draft, inspection, onSaved }: ConfirmProps,
  mapping: Mapping | undefined,
): Promise<string | undefined> {
  const objection = objectionTo(mapping);
  if (objection !== undefined || !mapping) return objection;
  const outcome = await record(trial, "trace-imported", {
    stage: stage.stage,
    ...(stage.round !== undefined && { round: stage.round }),
    fileName: draft["fileName"] ?? "logger file",
    kind,
    content: draft["content"] ?? "",
    mapping,
  });
  if (outcome.kind === "not-kept") return outcome.sentence;
  if (outcome.kind === "invalid") {
    const first = outcome.issues[0];
    return `${first?.field ?? "The file"}: ${first?.accepted ?? "cannot be taken"}.`;
  }
  rememberMapping(inspection, mapping);
  say("The file is in the log. Now say what its intervals were.");
  onSaved(outcome.id);
  return undefined;
}
