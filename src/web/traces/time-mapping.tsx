import type { Inspection } from "../../trial/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { Segments } from "../fields/segments.tsx";
import type { Option } from "../forms/spec.ts";
import type { Draft } from "../shell/drafts.ts";

interface Props {
  readonly inspection: Inspection;
  readonly draft: Draft;
  readonly change: (part: Draft) => void;
}

const forms = [
  { value: "iso", label: "Year first", hint: "2026-06-14 08:41:00" },
  { value: "day-first", label: "Day first", hint: "14.06.2026 08:41:00" },
  { value: "month-first", label: "Month first", hint: "06/14/2026 08:41:00" },
  { value: "elapsed", label: "Time since the start", hint: "0, 1, 2 …" },
];

const units = [
  { value: "s", label: "Seconds" },
  { value: "min", label: "Minutes" },
  { value: "h", label: "Hours" },
];

const decimals = [
  { value: ".", label: "Point", hint: "1.5" },
  { value: ",", label: "Comma", hint: "1,5" },
];

/** Which column is the clock, how it is written, and which mark divides its decimals. */
export function TimeMapping({ inspection, draft, change }: Props) {
  const ambiguous = (inspection.time?.alternatives.length ?? 0) > 0;
  const shared = { draft, change };
  return (
    <fieldset class="column">
      <legend>Time and numbers</legend>
      <Listed
        {...shared}
        id="time-column"
        name="time.column"
        label="Time stands in"
        options={inspection.headings.map((heading) => ({ value: heading, label: heading }))}
      />
      <Listed
        {...shared}
        id="time-form"
        name="time.form"
        label="Written as"
        hint={ambiguous ? "These cells can be read in more than one way: check." : undefined}
        options={forms.map(({ value, label, hint }) => ({ value, label: `${label} (${hint})` }))}
      />
      {draft["time.form"] === "elapsed" && (
        <Marked {...shared} id="time-unit" name="time.unit" label="Unit of time" options={units} />
      )}
      <Marked {...shared} id="decimal" name="decimal" label="Decimal mark" options={decimals} />
    </fieldset>
  );
}

interface PartProps extends Pick<Props, "draft" | "change"> {
  readonly id: string;
  /** Key of the draft. */
  readonly name: string;
  readonly label: string;
  readonly hint?: string | undefined;
  readonly options: readonly Option[];
}

const Listed = ({ id, name, label, hint, options, draft, change }: PartProps) => (
  <FieldFrame id={id} label={label} hint={hint}>
    <Pick
      id={id}
      options={options}
      value={draft[name] ?? ""}
      empty="Choose"
      onChange={(value) => {
        change({ [name]: value });
      }}
    />
  </FieldFrame>
);

/** One of a few; the first stands until another is marked. */
const Marked = ({ id, name, label, options, draft, change }: PartProps) => (
  <FieldFrame id={id} label={label}>
    <Segments
      name={id}
      label={label}
      options={options}
      value={draft[name] ?? options[0]?.value ?? ""}
      onChange={(value) => {
        change({ [name]: value });
      }}
    />
  </FieldFrame>
);
