import { useState } from "preact/hooks";
import { unitChoice } from "../../report/index.ts";
import { quantityNames, type ReadingQuantity, type StageView } from "../../trial/index.ts";
import { record, view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  /** One is open already. */
  readonly another: boolean;
}

/** What a run's instruments read, most wanted first. */
const offered: readonly ReadingQuantity[] = [
  "vent-temperature",
  "low-side",
  "high-side",
  "return-air-temperature",
  "return-air-humidity",
  "outside-temperature",
  "vehicle-speed",
  "engine-speed",
];
const usual: ReadonlySet<ReadingQuantity> = new Set(offered.slice(0, 4));

/** Opens a stream: which quantities the instrument sends, in which order and units. */
export function OpenStream({ trial, stage, another }: Props) {
  const [chosen, setChosen] = useState<ReadonlySet<ReadingQuantity>>(usual);
  const [failure, setFailure] = useState<string>();
  const units = unitChoice(view.value, preferences.value.system);
  const columns = offered
    .filter((quantity) => chosen.has(quantity))
    .map((quantity) => ({ column: quantity, quantity, unit: units.quantity(quantity).unit }));
  const open = async (): Promise<void> => {
    const number = view.value.traces.filter(({ stream }) => stream).length + 1;
    const outcome = await record(trial, "stream-opened", {
      stage: stage.stage,
      ...(stage.round !== undefined && { round: stage.round }),
      name: `Stream ${number}`,
      columns,
    });
    setFailure(outcome.kind === "not-kept" ? outcome.sentence : undefined);
  };
  return (
    <details class="live-open">
      <summary>{another ? "Open another stream" : "Open a stream"}</summary>
      <fieldset>
        <legend>What the instrument sends, in this order</legend>
        {offered.map((quantity) => (
          <label class="switch" key={quantity}>
            <input
              type="checkbox"
              checked={chosen.has(quantity)}
              onChange={(event) => {
                const next = new Set(chosen);
                if (event.currentTarget.checked) next.add(quantity);
                else next.delete(quantity);
                setChosen(next);
              }}
            />
            {quantityNames[quantity]}, {units.quantity(quantity).label}
          </label>
        ))}
      </fieldset>
      <button
        type="button"
        class="button"
        disabled={columns.length === 0}
        onClick={() => {
          void open();
        }}
      >
        Open the stream
      </button>
      {failure !== undefined && (
        <p class="objections" role="alert">
          {failure}
        </p>
      )}
    </details>
  );
}
