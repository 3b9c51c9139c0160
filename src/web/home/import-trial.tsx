import { useState } from "preact/hooks";
import { parseExport } from "../../trial/index.ts";
import { takeIn } from "../shell/log-keeper.ts";
import { jsonOf } from "./json-of.ts";
import { go } from "../shell/route.ts";

/** Takes in a trial file that was exported here or elsewhere. */
export function ImportTrial() {
  const [failure, setFailure] = useState<string>();
  const take = async (file: File): Promise<void> => {
    setFailure(undefined);
    const parsed = parseExport(jsonOf(await file.text()));
    if (parsed.kind === "invalid") {
      const first = parsed.issues[0];
      setFailure(
        first === undefined
          ? "This is not a trial file. Choose one that was saved with “Export the trial file”."
          : `This is not a whole trial file: ${first.field} should be ${first.accepted}.`,
      );
      return;
    }
    const refused = await takeIn(parsed.events);
    if (refused !== undefined) setFailure(refused);
    else if (parsed.events[0]) go("trial", parsed.events[0].trial, "stage", "plan", "-");
  };
  return (
    <div class="way">
      <label class="button file-button">
        Import a trial file
        <input
          type="file"
          accept="application/json,.json"
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            event.currentTarget.value = "";
            if (file) void take(file);
          }}
        />
      </label>
      {failure !== undefined && (
        <p class="field-issue" role="alert">
          {failure}
        </p>
      )}
    </div>
  );
}
