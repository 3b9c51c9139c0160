import { useState } from "preact/hooks";
import { parseExport } from "../../trial/index.ts";
import { takeIn } from "../shell/log-keeper.ts";
import { jsonOf } from "./json-of.ts";
import { go } from "../shell/route.ts";

/** Fetches the invented trial that comes with the app and opens it. */
export function OpenDemonstration() {
  const [state, setState] = useState<"idle" | "busy" | string>("idle");
  const open = async (): Promise<void> => {
    setState("busy");
    try {
      const response = await fetch("/demonstration/hill-town.json");
      if (!response.ok) {
        setState("The demonstration is not on this server.");
        return;
      }
      const parsed = parseExport(jsonOf(await response.text()));
      if (parsed.kind === "invalid") {
        setState("The demonstration file cannot be read by this version.");
        return;
      }
      const failure = await takeIn(parsed.events);
      if (failure !== undefined) setState(failure);
      else if (parsed.events[0]) go("trial", parsed.events[0].trial, "stage", "plan", "-");
    } catch {
      setState("The server does not answer. Start it, then open the demonstration again.");
    }
  };
  return (
    <div class="way">
      <button type="button" class="button" onClick={() => void open()}>
        {state === "busy" ? "Opening…" : "Open the demonstration"}
      </button>
      {state !== "idle" && state !== "busy" && (
        <p class="field-issue" role="alert">
          {state}
        </p>
      )}
    </div>
  );
}
