import type { Answer } from "../../calculations/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { DiagnosisSheet } from "../faults/diagnosis-sheet.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";
import { FluidQuantity, issueOf } from "../fluids/fields.tsx";
import { CannotCompute, CautionLines } from "../fluids/said.tsx";
import { firstReadings, moreReadings, typedReadings } from "./diagnose-specs.ts";
import type { VehicleUnits } from "./vehicle-units.ts";

interface Props {
  readonly draft: FieldDraft;
  /** The sound vehicle in these conditions, as `vehicle` takes it. */
  readonly input: Readonly<Record<string, unknown>>;
  readonly units: VehicleUnits;
}

const fewest = 2;

/** Readings of any vehicle, and what is wrong with it. */
export function DiagnosePart({ draft, input, units }: Props) {
  const readings = typedReadings(draft);
  const enough = Object.keys(readings).filter((name) => name !== "metal").length >= fewest;
  const { answers, current, failed } = useAnswers(
    enough ? [{ name: "diagnose", input: { ...input, readings } }] : [],
  );
  const answer = enough ? answers[0] : undefined;
  return (
    <section class="sheet" aria-labelledby="diagnose">
      <h2 id="diagnose">What is wrong with it?</h2>
      <p class="quiet">
        Type what gauges and thermometers show. The charge inside is what should be inside; vehicle
        and day are those of the setting.
      </p>
      {!enough && (
        <CautionLines
          cautions={[
            "Engine running: keep hands, sleeves and hoses away from belts and fans. The discharge line burns, and the high side holds 10 to 25 bar: clamp sensors on before the start.",
          ]}
        />
      )}
      <Fields specs={firstReadings} draft={draft} answer={answer} />
      <details class="fluid-folded">
        <summary>More readings ({moreReadings.length})</summary>
        <Fields specs={moreReadings} draft={draft} answer={answer} optional />
      </details>
      <CannotCompute failed={failed} />
      {enough ? (
        <DiagnosisSheet id="diagnosis" {...{ answer, current, units }} />
      ) : (
        <p class="empty">Type at least two readings: one decides nothing.</p>
      )}
    </section>
  );
}

interface FieldsProps {
  readonly specs: typeof firstReadings;
  readonly draft: FieldDraft;
  readonly answer: Answer | undefined;
  readonly optional?: boolean;
}

const Fields = ({ specs, draft, answer, optional = false }: FieldsProps) => (
  <div class="field-row">
    {specs.map((spec) => (
      <FluidQuantity
        key={spec.name}
        spec={spec}
        optional={optional}
        signed={spec.dimension !== "ratio"}
        issue={issueOf(answer, `readings.${spec.reading}`)}
        draft={draft}
        {...(spec.hint !== undefined && { hint: spec.hint })}
      />
    ))}
  </div>
);
