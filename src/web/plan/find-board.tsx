import type { Answer } from "../../calculations/index.ts";
import { DataTable, unitChoice } from "../../report/index.ts";
import { modelOf, type TrialView } from "../../trial/index.ts";
import type { Job } from "../engine/batch.ts";
import { useAnswers } from "../engine/use-answers.ts";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";

/** What this page needs of the calculation's answer. */
interface Found {
  readonly runs: number | null;
  readonly smallestDetectable: readonly number[];
  readonly floor: number;
}

/** 1 K where nobody set a margin. */
const USUAL = 1;

const usualConditions = [
  { kind: "parked-idle", ambient: "30 °C" },
  { kind: "road-steady", ambient: "30 °C" },
];

/** How many runs the plan needs, with and without reading the return air. */
export function FindBoard() {
  const seen = view.value;
  const jobs = jobsOf(seen);
  return jobs.length === 0 ? null : <Sheet view={seen} jobs={jobs} />;
}

function jobsOf(seen: TrialView): Job[] {
  const { vehicle, opened, products } = seen;
  if (!vehicle) return [];
  const choice = modelOf(vehicle);
  if (choice.kind === "none") return [];
  const input = {
    vehicle: { preset: choice.vehicle.preset, labelCharge: vehicle.labelCharge },
    label: vehicle.labelRefrigerant,
    products: Math.min(8, Math.max(1, products.length)),
    conditions: usualConditions,
    difference: opened?.margin ?? USUAL,
  };
  return [1, 0].map((returnAirRead) => ({ name: "plan", input: { ...input, returnAirRead } }));
}

const foundOf = (answer: Answer | undefined): Found | undefined =>
  answer?.kind === "answer" ? (answer.result as Found) : undefined;

function Sheet({ view: seen, jobs }: { view: TrialView; jobs: readonly Job[] }) {
  const { answers, current, failed } = useAnswers(jobs);
  const units = unitChoice(seen, preferences.value.system);
  const shown = units.quantityDifference("vent-temperature");
  const plain = (value: number): string => shown.text(value, value / 10).replace(/^\+/u, "");
  const [withAir, without] = answers.map(foundOf);
  const margin = plain(seen.opened?.margin ?? USUAL);
  return (
    <section class="sheet" aria-busy={!current}>
      <h2>What this plan can find</h2>
      {withAir ? (
        <>
          <p>{runsSentence(withAir, margin, plain)}</p>
          <DataTable
            caption="Smallest difference of the vent that is found in four of five such trials, at 95 %"
            head={["Runs each", "Return air read", "Not read"]}
            rows={[1, 2, 3, 4, 6, 8].map((runs) => [
              String(runs),
              plain(withAir.smallestDetectable[runs - 1] ?? withAir.floor),
              without ? plain(without.smallestDetectable[runs - 1] ?? without.floor) : "–",
            ])}
          />
          <p class="quiet">
            Runs parked at idle and on the road near 30 °C, the label refrigerant before and after
            the products, days up to 4 K apart. Read the temperature and humidity of the return air
            in every run: that narrows it more than further runs.
          </p>
        </>
      ) : (
        <p role="status">{status(answers[0], failed)}</p>
      )}
    </section>
  );
}

function status(answer: Answer | undefined, failed: boolean): string {
  if (failed) return "This device could not compute it.";
  if (answer?.kind === "no-answer") return answer.message;
  return answer ? "This vehicle cannot be planned for." : "Computing what this plan can find.";
}

function runsSentence(
  { runs, floor }: Found,
  margin: string,
  plain: (value: number) => string,
): string {
  return runs === null
    ? `No number of runs finds a difference of ${margin} at the vent: instruments, the model and the vehicle’s own drift leave ${plain(floor)}. A smaller difference will be undecided.`
    : `${runs} ${runs === 1 ? "run" : "runs"} of each charge in each condition find a difference of ${margin} at the vent.`;
}
