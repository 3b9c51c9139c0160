import { useState } from "preact/hooks";
import { parseExport } from "../../trial/index.ts";
import { takeIn } from "../shell/log-keeper.ts";
import { jsonOf } from "./json-of.ts";
import { go } from "../shell/route.ts";

/** Fetches the invented trial that comes with the app and opens it. */
export function OpenDemonstration() {
  const [busy, setBusy] = useState(false);
  const [failure, setFailure] = useState<string>();
  const open = async (): Promise<void> => {
    setBusy(true);
    setFailure(await fetchAndOpen());
    setBusy(false);
  };
  return (
    <div class="way">
      <button type="button" class="button" onClick={() => void open()}>
        {busy ? "Opening…" : "Open the demonstration"}
      </button>
      {failure !== undefined && (
        <p class="field-issue" role="alert">
          {failure}
        </p>
      )}
    </div>
  );
}

/** A sentence when it did not work. */
async function fetchAndOpen(): Promise<string | undefined> {
  const text = await fetch("/demonstration/harbour.json").then(
    (response) => (response.ok ? response.text() : ""),
    () => undefined,
  );
  if (text === undefined) {
    return "The server does not answer. Start it, then open the demonstration again.";
  }
  const parsed = parseExport(jsonOf(text));
  if (parsed.kind === "invalid")
    return "This server has no demonstration that this version can read.";
  const failure = await takeIn(parsed.events);
  if (failure === undefined) go("trial", parsed.trial, "stage", "plan", "-");
  return failure;
}
