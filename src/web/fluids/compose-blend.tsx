import { parseNumber } from "../../units/index.ts";
import { Segments } from "../fields/segments.tsx";
import { basisOf, MOST_PARTS, type TypedPart, typedParts } from "./chosen.ts";
import { SubstancePick } from "./substance-pick.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";
import { fluidDraft } from "./fluid-draft.ts";

interface ComposeProps {
  readonly issue: string | undefined;
  /** Of which page; of the fluids' unless told. */
  readonly draft?: FieldDraft | undefined;
}

/** A composition typed by hand, by mass or by mole. */
export function ComposeBlend({ issue, draft = fluidDraft }: ComposeProps) {
  const parts = typedParts(draft);
  const sum = parts.reduce((total, { share }) => {
    const parsed = parseNumber(share);
    return total + (parsed.kind === "number" ? parsed.value : 0);
  }, 0);
  const whole = Math.abs(sum - 100) < 1e-4;
  return (
    <fieldset class="compose">
      <legend class="field-label">Composition</legend>
      <Segments
        name={`${draft.prefix}-basis`}
        label="Fractions are by"
        value={basisOf(draft)}
        options={[
          { value: "mass", label: "% by mass" },
          { value: "mole", label: "% by mole" },
        ]}
        onChange={(basis) => {
          draft.change({ basis });
        }}
      />
      <ul class="compose-parts">
        {parts.map((part, i) => (
          <li key={i}>
            <PartFields part={part} place={i} parts={parts} draft={draft} />
          </li>
        ))}
      </ul>
      <p class={whole ? "quiet figure" : "figure"}>
        Sum {Number(sum.toFixed(4))} %{whole ? "" : ": the parts must come to 100 %"}
      </p>
      {issue !== undefined && whole && <p class="field-issue">Needed here: {issue}</p>}
      {parts.length < MOST_PARTS && (
        <button
          type="button"
          class="button"
          onClick={() => {
            draft.change({ parts: String(parts.length + 1) });
          }}
        >
          Add a part
        </button>
      )}
    </fieldset>
  );
}

interface PartProps {
  readonly part: TypedPart;
  readonly place: number;
  readonly parts: readonly TypedPart[];
  readonly draft: FieldDraft;
}

function PartFields({ part, place, parts, draft }: PartProps) {
  const others = parts.filter((_, i) => i !== place).map(({ fluid }) => fluid);
  return (
    <div class="compose-part">
      <SubstancePick
        id={`${draft.prefix}-part-${place}`}
        label={`Part ${place + 1}`}
        value={part.fluid}
        empty="Choose"
        blends={false}
        without={others}
        onChange={(fluid) => {
          draft.change({ [`part.${place}.fluid`]: fluid });
        }}
      />
      <input
        class="text figure"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        aria-label={`Per cent of part ${place + 1}`}
        value={part.share}
        onInput={(event) => {
          draft.change({ [`part.${place}.share`]: event.currentTarget.value });
        }}
      />
      {parts.length > 2 && (
        <button
          type="button"
          class="plain"
          aria-label={`Leave out part ${place + 1}`}
          onClick={() => {
            draft.change(without(parts, place));
          }}
        >
          Leave out
        </button>
      )}
    </div>
  );
}

/** The fields of all parts with one of them gone, the last place emptied. */
function without(parts: readonly TypedPart[], place: number): Record<string, string> {
  const kept = parts.filter((_, i) => i !== place);
  const fields = parts.flatMap((_, i): [string, string][] => [
    [`part.${i}.fluid`, kept[i]?.fluid ?? ""],
    [`part.${i}.share`, kept[i]?.share ?? ""],
  ]);
  return { ...Object.fromEntries(fields), parts: String(kept.length) };
}
