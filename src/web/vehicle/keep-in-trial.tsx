import { useState } from "preact/hooks";
import { modelOf, parseBody } from "../../trial/index.ts";
import type { FieldDraft } from "../fields/field-draft.ts";
import { record, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { siOverrides } from "./overrides.ts";
import { type Given, vehicleCase } from "./vehicle-case.ts";

interface Props {
  readonly trial: string;
  readonly draft: FieldDraft;
  readonly given: Given;
}

const REASON = "Forecasts use what is known of this vehicle.";

const sorted = (refined: Readonly<Record<string, number>>): string =>
  JSON.stringify(Object.entries(refined).sort(([a], [b]) => (a < b ? -1 : 1)));

/** Writes the chosen kind of system and the own parameters into the log, so that the trial's bands follow them. */
export function KeepInTrial({ trial, draft, given }: Props) {
  const [problem, setProblem] = useState<string>();
  const { vehicle, entries } = view.value;
  const entry = entries.find((one) => one.id === vehicle?.entry);
  if (!vehicle || entry?.type !== "vehicle-described") return null;
  const { preset, parameters } = vehicleCase(draft, given);
  const refined = siOverrides(draft, parameters);
  const before = modelOf(vehicle);
  const now = before.kind === "model" ? before.vehicle.preset : undefined;
  if (preset.name === now && sorted(refined ?? {}) === sorted(vehicle.model?.refined ?? {})) {
    return null;
  }
  const keep = async (): Promise<void> => {
    const body = { ...entry.body, model: { preset: preset.name, refined } };
    // A correction that its target's type would refuse must not reach the log.
    const sound = parseBody("vehicle-described", body);
    if (sound.kind === "invalid") {
      setProblem(sound.issues.map(({ field, accepted }) => `${field}: ${accepted}`).join("; "));
      return;
    }
    const outcome = await record(trial, "entry-corrected", {
      target: entry.id,
      body,
      reason: REASON,
      supersedes: entry.corrections.map(({ id }) => id),
    });
    if (outcome.kind === "recorded") {
      setProblem(undefined);
      say("The trial’s bands follow this kind of vehicle and these values now.");
    } else {
      setProblem(outcome.kind === "not-kept" ? outcome.sentence : "It was not kept. Try again.");
    }
  };
  return (
    <section class="sheet vehicle-keep" aria-labelledby="keep-in-trial">
      <h2 id="keep-in-trial">Use this in the trial</h2>
      <p class="quiet">
        The bands on the trial’s running readings then come from this kind of vehicle and the values
        of your own. The log keeps what stood there before.
      </p>
      {refined ? (
        <button type="button" class="button button-main" onClick={() => void keep()}>
          Use this in the trial
        </button>
      ) : (
        <p class="quiet">One of the values is no plain number: type it in the unit beside it.</p>
      )}
      {problem !== undefined && (
        <p class="field-issue" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
