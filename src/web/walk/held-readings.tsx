import { readingName, unitChoice } from "../../report/index.ts";
import type { ReadingView, TrialView } from "../../trial/index.ts";
import { Fold } from "../look/fold.tsx";
import { judging } from "../readings/judging.ts";
import { VerdictCounts } from "../readings/verdict-counts.tsx";
import { VerdictPanel } from "../readings/verdict-panel.tsx";
import { most } from "./most.ts";

interface Props {
  readonly readings: readonly ReadingView[];
  readonly view: TrialView;
}

/** Readings of the stage with their verdicts; those that nothing can judge stand as plain figures. */
export function HeldReadings({ readings, view }: Props) {
  const judge = judging.value;
  const all = readings.slice(-most).map((reading) => ({
    reading,
    title: titleOf(view, reading),
    verdict: judge?.judgeReading(view, reading),
  }));
  const judged = all.flatMap(({ title, verdict }) => (verdict ? [{ title, ...verdict }] : []));
  return (
    <Fold
      title={`Readings (${readings.length})`}
      {...(judged.length > 0 && { said: <VerdictCounts judged={judged} /> })}
    >
      {all.map(({ reading, title, verdict }) =>
        verdict ? (
          <VerdictPanel
            key={reading.id}
            verdict={verdict}
            typed={reading.typed}
            atmosphere={view.atmosphere.value}
            title={title}
            quantity={reading.quantity}
            compact
          />
        ) : null,
      )}
      <PlainReadings
        readings={all.filter(({ verdict }) => !verdict).map(({ reading }) => reading)}
        view={view}
      />
    </Fold>
  );
}

/** The reading's name, with the vessel or the run it is about. */
function titleOf(
  { vessels, runs }: TrialView,
  { quantity, form, vessel, run }: ReadingView,
): string {
  const about = vessels.find(({ id }) => id === vessel) ?? runs.find(({ id }) => id === run);
  const name = readingName(quantity, form);
  return about ? `${name}, ${about.name}` : name;
}

function PlainReadings({ readings, view }: Props) {
  const units = unitChoice(view, "as-typed");
  if (readings.length === 0) return null;
  return (
    <dl class="plain-readings">
      {readings.map((reading) => (
        <div key={reading.id}>
          <dt>{titleOf(view, reading)}</dt>
          <dd class="figure">
            {reading.u === undefined
              ? units.quantity(reading.quantity, reading.typed.unit).text(reading.value)
              : units
                  .quantity(reading.quantity, reading.typed.unit)
                  .pair({ value: reading.value, u: reading.u })}
          </dd>
        </div>
      ))}
    </dl>
  );
}
