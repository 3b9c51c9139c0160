import type { StageView } from "../../trial/index.ts";
import { formatQuantity } from "../../units/index.ts";
import { readingsFor } from "../readings/taken.ts";
import { view } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { stageParts } from "./stage-key.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onCancel: () => void;
}

/** Every reading this stage knows, with what was read last. */
export function ReadingChoice({ trial, stage, onCancel }: Props) {
  const seen = view.value;
  return (
    <>
      <ul class="rows">
        {stage.prompts.map((prompt) => {
          const last = readingsFor(seen, stage, prompt).at(-1);
          return (
            <li key={prompt.id}>
              <a
                class="row"
                href={pathTo("trial", trial, ...stageParts(stage), "reading", prompt.id)}
              >
                <strong>{prompt.label}</strong>
                <small class="figure">
                  {last ? `Last read: ${formatQuantity(last.typed)}` : "Not read yet"}
                </small>
              </a>
            </li>
          );
        })}
      </ul>
      <div class="action-bar">
        <button type="button" class="button" onClick={onCancel}>
          Back
        </button>
      </div>
    </>
  );
}
