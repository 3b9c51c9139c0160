import type { Inspection } from "../../trial/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { Segments } from "../fields/segments.tsx";
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

/** Which column is the clock, how it is written, and which mark divides its decimals. */
export function TimeMapping({ inspection, draft, change }: Props) {
  const ambiguous = (inspection.time?.alternatives.length ?? 0) > 0;
  return (
    <fieldset class="column">
      <legend>Time and numbers</legend>
      <FieldFrame id="time-column" label="Time stands in">
        <Pick
          id="time-column"
          options={inspection.headings.map((heading) => ({ value: heading, label: heading }))}
          value={draft["time.column"] ?? ""}
          empty="Choose"
          onChange={(column) => {
            change({ "time.column": column });
          }}
        />
      </FieldFrame>
      <FieldFrame
        id="time-form"
        label="Written as"
        hint={ambiguous ? "These cells can be read in more than one way: check." : undefined}
      >
        <Pick
          id="time-form"
          options={forms.map(({ value, label, hint }) => ({ value, label: `${label} (${hint})` }))}
          value={draft["time.form"] ?? ""}
          empty="Choose"
          onChange={(form) => {
            change({ "time.form": form });
          }}
        />
      </FieldFrame>
      {draft["time.form"] === "elapsed" && (
        <FieldFrame id="time-unit" label="In">
          <Segments
            name="time-unit"
            label="Unit of time"
            options={[
              { value: "s", label: "Seconds" },
              { value: "min", label: "Minutes" },
              { value: "h", label: "Hours" },
            ]}
            value={draft["time.unit"] ?? "s"}
            onChange={(unit) => {
              change({ "time.unit": unit });
            }}
          />
        </FieldFrame>
      )}
      <FieldFrame id="decimal" label="Decimal mark">
        <Segments
          name="decimal"
          label="Decimal mark"
          options={[
            { value: ".", label: "Point", hint: "1.5" },
            { value: ",", label: "Comma", hint: "1,5" },
          ]}
          value={draft["decimal"] ?? "."}
          onChange={(decimal) => {
            change({ decimal });
          }}
        />
      </FieldFrame>
    </fieldset>
  );
}
