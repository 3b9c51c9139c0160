import { parseNumber } from "../../units/index.ts";
import { Segments } from "../fields/segments.tsx";
import { basisOf, MOST_PARTS, type TypedPart, typedParts } from "./chosen.ts";
import { SubstancePick } from "./substance-pick.tsx";
import { changeFluidDraft } from "./fluid-draft.ts";

/** A composition typed by hand, by mass or by mole. */
export function ComposeBlend({ issue }: { readonly issue: string | undefined }) {
  const parts = typedParts();
  const sum = parts.reduce((total, { share }) => {
    const parsed = parseNumber(share);
    return total + (parsed.kind === "number" ? parsed.value : 0);
  }, 0);
  const whole = Math.abs(sum - 100) < 1e-4;
  return (
    <fieldset class="compose">
      <legend class="field-label">Composition</legend>
      <Segments
        name="fluids-basis"
        label="Fractions are by"
        value={basisOf()}
        options={[
          { value: "mass", label: "% by mass" },
          { value: "mole", label: "% by mole" },
        ]}
        onChange={(basis) => {
          changeFluidDraft({ basis });
        }}
      />
      <ul class="compose-parts">
        {parts.map((part, i) => (
          <li key={i}>
            <PartFields part={part} place={i} parts={parts} />
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
            changeFluidDraft({ parts: String(parts.length + 1) });
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
}

function PartFields({ part, place, parts }: PartProps) {
  const others = parts.filter((_, i) => i !== place).map(({ fluid }) => fluid);
  return (
    <div class="compose-part">
      <SubstancePick
        id={`fluids-part-${place}`}
        label={`Part ${place + 1}`}
        value={part.fluid}
        empty="Choose"
        blends={false}
        without={others}
        onChange={(fluid) => {
          changeFluidDraft({ [`part.${place}.fluid`]: fluid });
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
          changeFluidDraft({ [`part.${place}.share`]: event.currentTarget.value });
        }}
      />
      {parts.length > 2 && (
        <button
          type="button"
          class="plain"
          aria-label={`Leave out part ${place + 1}`}
          onClick={() => {
            changeFluidDraft(without(parts, place));
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
