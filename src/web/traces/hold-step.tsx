import { useState } from "preact/hooks";
import type { StageView } from "../../trial/index.ts";
import { parseNumber } from "../../units/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Segments } from "../fields/segments.tsx";
import { ActionBar } from "../forms/action-bar.tsx";
import { changeDraft, draftOf, forgetDraft } from "../shell/drafts.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: (trace: string) => void;
  readonly onCancel: () => void;
}

const units = [
  { value: "micron", label: "micron" },
  { value: "mbar", label: "mbar" },
  { value: "Pa", label: "Pa" },
];

const FIRST_ROWS = 8;
const MOST_ROWS = 60;
const FEWEST = 4;

interface Row {
  readonly minutes: number;
  readonly pressure: number;
}

type Rows =
  | { readonly kind: "rows"; readonly rows: readonly Row[] }
  | { readonly kind: "objection"; readonly text: string };

const numberOf = (text: string): number | undefined => {
  const parsed = parseNumber(text);
  return parsed.kind === "number" ? parsed.value : undefined;
};

/** The filled rows, or the first thing that stands in their way. */
function rowsOf(draft: Readonly<Record<string, string>>, count: number): Rows {
  const rows: Row[] = [];
  for (let i = 0; i < count; i++) {
    const [time, level] = [draft[`t${i}`] ?? "", draft[`p${i}`] ?? ""];
    if (level.trim() === "") continue;
    const [minutes, pressure] = [numberOf(time === "" ? String(i) : time), numberOf(level)];
    if (minutes === undefined || pressure === undefined || pressure <= 0) {
      return {
        kind: "objection",
        text: `Reading ${i + 1}: minutes and a pressure above zero, in figures.`,
      };
    }
    if (minutes <= (rows.at(-1)?.minutes ?? -1)) {
      return {
        kind: "objection",
        text: `Reading ${i + 1}: its minutes must come after those before.`,
      };
    }
    rows.push({ minutes, pressure });
  }
  return rows.length < FEWEST
    ? { kind: "objection", text: `${FEWEST} readings are the least; eight or more say much more.` }
    : { kind: "rows", rows };
}

/** Types a hold: minutes and pressure, a row at a time. It goes into the log as a file of its rows. */
export function HoldStep(props: Props) {
  const { stage, onCancel } = props;
  const key = `hold ${stage.stage} ${stage.round ?? "-"}`;
  const draft = draftOf(key);
  const [failure, setFailure] = useState<string>();
  const filled = Array.from({ length: MOST_ROWS }, (_, i) => i).findLast(
    (i) => (draft[`p${i}`] ?? "") !== "",
  );
  const count = Math.min(MOST_ROWS, Math.max(FIRST_ROWS, (filled ?? 0) + 2));
  const gauges = view.value.instruments.filter(({ measures }) => measures === "vacuum");
  return (
    <form
      class="hold-step"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save(props, key, count, gauges[0]?.id).then(setFailure);
      }}
    >
      <FieldFrame id="hold-unit" label="The gauge shows">
        <Segments
          name="hold-unit"
          label="The gauge shows"
          options={units}
          value={draft["unit"] ?? "micron"}
          onChange={(unit) => {
            changeDraft(key, { unit });
          }}
        />
      </FieldFrame>
      <table class="table hold-rows">
        <caption>Minutes since the valve was closed, and the gauge</caption>
        <thead>
          <tr>
            <th scope="col">Minutes</th>
            <th scope="col">Pressure, {draft["unit"] ?? "micron"}</th>
          </tr>
        </thead>
        <tbody>
          {Array.from({ length: count }, (_, i) => (
            <tr key={i}>
              <td>
                <Cell
                  id={`t${i}`}
                  label={`Minutes of reading ${i + 1}`}
                  value={draft[`t${i}`] ?? ""}
                  hint={String(i)}
                  form={key}
                />
              </td>
              <td>
                <Cell
                  id={`p${i}`}
                  label={`Pressure of reading ${i + 1}`}
                  value={draft[`p${i}`] ?? ""}
                  hint=""
                  form={key}
                />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="quiet">Minutes left empty count 0, 1, 2 and so on.</p>
      {failure !== undefined && (
        <p class="objections" role="alert">
          Not saved. {failure}
        </p>
      )}
      <ActionBar saveLabel="Save the hold" onCancel={onCancel} />
    </form>
  );
}

interface CellProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly hint: string;
  readonly form: string;
}

const Cell = ({ id, label, value, hint, form }: CellProps) => (
  <input
    id={id}
    class="text hold-cell"
    inputMode="decimal"
    autocomplete="off"
    aria-label={label}
    placeholder={hint}
    value={value}
    onInput={(event) => {
      changeDraft(form, { [id]: event.currentTarget.value });
    }}
  />
);

/** Puts the rows into the log as a file; what hindered it, if anything did. */
async function save(
  { trial, stage, onSaved }: Props,
  key: string,
  count: number,
  gauge: string | undefined,
): Promise<string | undefined> {
  const draft = draftOf(key);
  const read = rowsOf(draft, count);
  if (read.kind === "objection") return read.text;
  const unit = draft["unit"] ?? "micron";
  const lines = read.rows.map(({ minutes, pressure }) => `${minutes},${pressure}`);
  const outcome = await record(trial, "trace-imported", {
    stage: stage.stage,
    ...(stage.round !== undefined && { round: stage.round }),
    fileName: "typed hold",
    kind: "hold",
    content: [`minute,${unit}`, ...lines, ""].join("\n"),
    mapping: {
      decimal: ".",
      time: { column: "minute", form: "elapsed", unit: "min" },
      columns: [
        {
          column: unit,
          quantity: "vacuum",
          unit,
          ...(gauge !== undefined && { instrument: gauge }),
        },
      ],
    },
  });
  if (outcome.kind === "not-kept") return outcome.sentence;
  if (outcome.kind === "invalid") return outcome.issues[0]?.accepted ?? "It cannot be taken.";
  forgetDraft(key);
  say("The hold is in the log. What it means stands below its picture.");
  onSaved(outcome.id);
  return undefined;
}
