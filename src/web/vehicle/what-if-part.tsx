import type { Answer } from "../../calculations/index.ts";
import { DataTable } from "../../report/index.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import type { FieldDraft } from "../fields/field-draft.ts";
import type { Chosen } from "../fluids/chosen.ts";
import { FluidQuantity, issueOf } from "../fluids/fields.tsx";
import { Basis, CannotCompute, NoAnswer } from "../fluids/said.tsx";
import { SubstancePick } from "../fluids/substance-pick.tsx";
import { CycleSheet } from "./cycle-sheet.tsx";
import { chosenFault, type Fault, faultKinds } from "./faults.ts";
import { readingNames, type Running, runOf } from "./vehicle-results.ts";
import type { VehicleUnits } from "./vehicle-units.ts";
import { quantityNames, readingText, shownOf, uncertaintyOf } from "./vehicle-words.ts";

interface Props {
  readonly draft: FieldDraft;
  readonly substance: Chosen;
  /** The sound question. */
  readonly input: Readonly<Record<string, unknown>>;
  readonly sound: Running | undefined;
  readonly soundAnswer: Answer | undefined;
  readonly units: VehicleUnits;
}

/** One fault beside the sound system. */
export function WhatIfPart({ draft, substance, input, sound, soundAnswer, units }: Props) {
  const fault = chosenFault(draft, input, substance.name);
  const { answers, current, failed } = useAnswers(
    fault.input ? [{ name: "vehicle", input: fault.input }] : [],
  );
  const [answer] = fault.input ? answers : [];
  const run = runOf(answer);
  return (
    <section class="sheet" aria-labelledby="what-if">
      <h2 id="what-if">What if something is wrong?</h2>
      <FaultFields draft={draft} fault={fault} answer={answer} />
      <CannotCompute failed={failed} />
      <NoAnswer answer={answer} />
      {run && run.state !== "running" && (
        <p class="told">
          With this fault it would not run steadily. {run.message}
          {run.resting !== undefined &&
            ` At rest both gauges would stand at ${units.gauge.text(run.resting)}.`}
        </p>
      )}
      {run?.state === "running" && sound && (
        <div class={current ? "vehicle-beside" : "vehicle-beside is-stale"}>
          <Beside {...{ fault, run, sound, units }} />
        </div>
      )}
      {run?.state === "running" && sound && (
        <Cycles {...{ fault, run, sound, substance, units, answer }} />
      )}
      {run?.state === "running" && !sound && (
        <p class="told">
          Without this the system would not run in these conditions, so nothing stands beside it.{" "}
          {withFault(fault)}: low side {readingText("low", run, units)}, high side{" "}
          {readingText("high", run, units)}, vent {readingText("vent", run, units)}.
        </p>
      )}
      {run?.state === "running" && (
        <NewNotes run={run} before={sound?.notes.map(({ code }) => code) ?? []} />
      )}
      {fault.kind.name === "fluid" && (
        <Basis
          answers={[answer]}
          without={soundAnswer?.kind === "answer" ? soundAnswer.cautions : []}
        />
      )}
    </section>
  );
}

interface FieldsProps {
  readonly draft: FieldDraft;
  readonly fault: Fault;
  readonly answer: Answer | undefined;
}

function FaultFields({ draft, fault, answer }: FieldsProps) {
  const { kind, spec, other } = fault;
  const id = `${draft.prefix}-fault`;
  return (
    <div class="field-row">
      <FieldFrame id={id} label="What is wrong">
        <select
          id={id}
          class="pick"
          value={kind.name}
          onChange={(event) => {
            draft.change({ fault: event.currentTarget.value });
          }}
        >
          {faultKinds.map(({ name, label }) => (
            <option key={name} value={name} selected={name === kind.name}>
              {label}
            </option>
          ))}
        </select>
      </FieldFrame>
      {spec && (
        <FluidQuantity
          key={spec.name}
          spec={spec}
          draft={draft}
          issue={kind.issue === undefined ? undefined : issueOf(answer, kind.issue)}
        />
      )}
      {other && (
        <FieldFrame id={`${id}-fluid`} label="What is in it instead">
          <SubstancePick
            id={`${id}-fluid`}
            value={other.name}
            onChange={(name) => {
              draft.change({ "fault-fluid": name });
            }}
          />
        </FieldFrame>
      )}
    </div>
  );
}

interface BesideProps {
  readonly fault: Fault;
  readonly run: Running;
  readonly sound: Running;
  readonly units: VehicleUnits;
}

const withFault = ({ kind, other }: Fault): string => (other ? `With ${other.name}` : kind.label);

function Beside({ fault, run, sound, units }: BesideProps) {
  return (
    <>
      <p class="vehicle-finding">{findingOf({ fault, run, sound, units })}</p>
      <DataTable
        caption={`${withFault(fault)}, beside the sound system`}
        head={["Quantity", "Sound", withFault(fault), "Difference"]}
        rows={readingNames.map((name) => {
          const { change } = shownOf(name, units);
          const limits = sound.band?.[name];
          // The band of the sound system says which digits of both mean anything.
          const u = limits && uncertaintyOf(limits);
          return [
            quantityNames[name],
            readingText(name, sound, units, u),
            readingText(name, run, units, u),
            change.text(meanOf(name, run) - meanOf(name, sound), u),
          ];
        })}
      />
      {(sound.lowRange ?? run.lowRange) && (
        <p class="quiet">
          Where the clutch cycles the low side swings between two ends; its difference is that of
          the means, the high side’s that while the clutch is engaged.
        </p>
      )}
    </>
  );
}

const meanOf = (name: (typeof readingNames)[number], run: Running): number =>
  name === "high" ? (run.highOn ?? run.high) : run[name];

/** Smaller differences are within what any vehicle does: K, and parts of a pressure. */
const CALM = { T: 0.5, p: 0.03 } as const;

function findingOf({ fault, run, sound, units }: BesideProps): string {
  const u = (name: "low" | "high" | "vent"): number | undefined => {
    const limits = sound.band?.[name];
    return limits && uncertaintyOf(limits);
  };
  const warmer = run.vent - sound.vent;
  const vent =
    Math.abs(warmer) < CALM.T
      ? "the vent hardly changes"
      : `the vent is ${units.dT.text(Math.abs(warmer), u("vent")).replace("+", "")} ${warmer > 0 ? "warmer" : "colder"}`;
  const side = (name: "low" | "high"): string | undefined => {
    const [before, after] = [meanOf(name, sound), meanOf(name, run)];
    if (Math.abs(after / before - 1) < CALM.p) return undefined;
    const by = units.dP.text(Math.abs(after - before), u(name)).replace("+", "");
    return `the ${name} side ${by} ${after > before ? "higher" : "lower"}`;
  };
  const sides = [side("low"), side("high")].filter((text) => text !== undefined);
  const rest = sides.length === 0 ? ["both sides within 3 %"] : sides;
  return `${withFault(fault)}: ${[vent, ...rest].join(", ")}.`;
}

interface CyclesProps extends BesideProps {
  readonly substance: Chosen;
  readonly answer: Answer | undefined;
}

/** Both cycles in one chart; two fluids have no common zero of enthalpy, so another fluid has its own. */
function Cycles({ fault, run, sound, substance, units, answer }: CyclesProps) {
  if (fault.other) {
    return (
      <div class="vehicle-pair">
        <CycleSheet
          id="vehicle-sound-cycle"
          title={`The cycle on ${substance.name}`}
          substance={substance}
          cycles={[{ name: substance.name, cycle: sound.cycle }]}
          answer={answer}
          units={units}
        />
        <CycleSheet
          id="vehicle-other-cycle"
          title={`The cycle on ${fault.other.name}: its enthalpies have their own zero`}
          substance={fault.other}
          cycles={[{ name: fault.other.name, cycle: run.cycle }]}
          answer={answer}
          units={units}
        />
      </div>
    );
  }
  return (
    <CycleSheet
      id="vehicle-two-cycles"
      title={`${fault.kind.label} (broken line, 1′ to 4′) beside the sound cycle (full line)`}
      substance={substance}
      cycles={[
        { name: "Sound", cycle: sound.cycle },
        { name: fault.kind.label, cycle: run.cycle, broken: true },
      ]}
      answer={answer}
      units={units}
    />
  );
}

function NewNotes({ run, before }: { readonly run: Running; readonly before: readonly string[] }) {
  const fresh = run.notes.filter(({ code }) => !before.includes(code));
  if (fresh.length === 0) return null;
  return (
    <ul class="vehicle-notes" aria-label="Notes on this fault">
      {fresh.map(({ code, text }) => (
        <li key={code}>{text}</li>
      ))}
    </ul>
  );
}
