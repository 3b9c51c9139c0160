import type { IdentifyResult } from "../../calculations/index.ts";
import { runsWords } from "../../report/index.ts";

interface Props {
  readonly said: IdentifyResult["runs"];
  readonly withRuns: boolean;
  readonly choose: (withRuns: boolean) => void;
}

/** Runs go through a model of the vehicle: whoever doubts it looks at the answer without them. */
export const RunsChoice = ({ said, withRuns, choose }: Props) => (
  <div class="contents-runs">
    <label class="check">
      <input
        type="checkbox"
        checked={withRuns}
        onChange={({ currentTarget }) => {
          choose(currentTarget.checked);
        }}
      />
      <span>
        Weigh the runs of the vehicle
        <small>For a look on this screen: the report weighs them.</small>
      </span>
    </label>
    <p>
      {said
        ? runsWords(said)
        : "Left out here. What stands above rests on the readings at rest, what was weighed and what testers said."}
    </p>
  </div>
);
