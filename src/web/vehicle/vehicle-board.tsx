import type { Answer } from "../../calculations/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { CannotCompute, NoAnswer } from "../fluids/said.tsx";
import { resultOf } from "../fluids/results.ts";
import { CycleSheet } from "./cycle-sheet.tsx";
import { ChargeSheet, NoReads, ReadsSheet } from "./reads-part.tsx";
import { DiagnosePart } from "./diagnose-part.tsx";
import { RefinePart } from "./refine-part.tsx";
import { ConditionSheet, VehicleSheet } from "./setting-part.tsx";
import { SweepPart } from "./sweep-part.tsx";
import { type Given, type VehicleCase, vehicleCase } from "./vehicle-case.ts";
import { Part, PartList } from "./vehicle-parts.tsx";
import { type Running, runOf, type VehicleRun } from "./vehicle-results.ts";
import { type VehicleUnits, vehicleUnits } from "./vehicle-units.ts";
import { readingText, uncertaintyOf } from "./vehicle-words.ts";
import { WhatIfPart } from "./what-if-part.tsx";

interface Props {
  readonly draft: FieldDraft;
  readonly given: Given;
}

/** Air at sea level, Pa, until the calculations say what it is here. */
const SEA_LEVEL = 101_325;

/** Local air of the case, Pa: a vacuum of nothing stands at its pressure. */
function useAtmosphere(input: VehicleCase["input"], { barometer }: Given): number {
  const altitude = input?.["altitude"];
  const air = altitude !== undefined ? { altitude } : barometer === undefined ? {} : { barometer };
  const { answers } = useAnswers([{ name: "water-boiling", input: { vacuum: 0, ...air } }]);
  return resultOf("water-boiling", answers[0])?.p ?? barometer ?? SEA_LEVEL;
}

/** Everything about one vehicle: a part at a time on a phone, what is asked beside what is shown at a desk. */
export function VehicleBoard({ draft, given }: Props) {
  const asked = vehicleCase(draft, given);
  const { input, substance } = asked;
  const units = vehicleUnits(useAtmosphere(input, given));
  const { answers, current, failed } = useAnswers(
    input ? [{ name: "vehicle", input: { ...input, band: true } }] : [],
  );
  const answer = input ? answers[0] : undefined;
  const run = runOf(answer);
  const shared = { draft, given, asked, answer };
  return (
    <div class="fluids vehicle">
      <PartList draft={draft} />
      <div class="fluids-asks">
        <Part name="setting" draft={draft}>
          <VehicleSheet {...shared} />
          <ConditionSheet {...shared} />
        </Part>
        <Part name="refine" draft={draft}>
          <RefinePart draft={draft} parameters={asked.parameters} answer={answer} />
        </Part>
      </div>
      <div class="vehicle-head" role="status">
        <Headline {...{ asked, answer, run, units, failed }} />
      </div>
      <div class="fluids-shows">
        <Part name="reads" draft={draft}>
          <NoAnswer answer={answer} />
          {run?.state === "running" && (
            <>
              <ReadsSheet {...{ run, current, asked, answer, units }} />
              <ChargeSheet {...{ run, asked, units }} />
              {substance && (
                <section class="sheet" aria-labelledby="vehicle-cycle-head">
                  <h2 id="vehicle-cycle-head">The cycle</h2>
                  <CycleSheet
                    id="vehicle-cycle"
                    title={cycleTitle(substance.name, run, units)}
                    cycles={[{ name: "Cycle", cycle: run.cycle }]}
                    {...{ substance, answer, units }}
                  />
                </section>
              )}
            </>
          )}
          {run && run.state !== "running" && <NoReads run={run} units={units} />}
        </Part>
        {input && substance && answer?.kind === "answer" && (
          <>
            <Part name="diagnose" draft={draft}>
              <DiagnosePart {...{ draft, input, units }} />
            </Part>
            <Part name="what-if" draft={draft}>
              <WhatIfPart
                {...{ draft, substance, input, units }}
                sound={run?.state === "running" ? run : undefined}
                soundAnswer={answer}
              />
            </Part>
            <Part name="sweeps" draft={draft}>
              <SweepPart
                {...{ draft, input, units }}
                labelCharge={asked.labelCharge}
                here={asked.here}
              />
            </Part>
          </>
        )}
      </div>
    </div>
  );
}

function cycleTitle(name: string, run: Running, units: VehicleUnits): string {
  const text = (quantity: "capacity" | "power"): string => {
    const limits = run.band?.[quantity];
    return readingText(quantity, run, units, limits && uncertaintyOf(limits));
  };
  return `${name} takes up ${text("capacity")} for ${text("power")} at the compressor`;
}

interface HeadlineProps {
  readonly asked: VehicleCase;
  readonly answer: Answer | undefined;
  readonly run: VehicleRun | undefined;
  readonly units: VehicleUnits;
  readonly failed: boolean;
}

/** The answer in a line, whichever part is open. */
function Headline({ asked, answer, run, units, failed }: HeadlineProps) {
  if (failed) return <CannotCompute failed />;
  if (!asked.input) {
    return <p class="empty">Type the label charge, the outside air and what is in the vehicle.</p>;
  }
  if (answer?.kind === "invalid") {
    const [first] = answer.issues;
    return (
      <p class="field-issue">
        One of the fields cannot be used. {first && `Needed: ${first.accepted}.`}
      </p>
    );
  }
  if (answer?.kind === "no-answer") return <p class="told">{answer.message}</p>;
  if (!run) return <p class="quiet">Working it out…</p>;
  if (run.state !== "running") return <p class="vehicle-finding">{run.message}</p>;
  const text = (name: "low" | "high" | "vent") => {
    const limits = run.band?.[name];
    return readingText(name, run, units, limits && uncertaintyOf(limits));
  };
  return (
    <p class="vehicle-finding figure">
      {asked.substance?.name} in this kind of vehicle: low side {text("low")}, high side{" "}
      {text("high")}, vent {text("vent")}.
    </p>
  );
}
