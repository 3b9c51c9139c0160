import type { StageView } from "../../trial/index.ts";
import { pathTo } from "../shell/route.ts";
import { stageParts } from "./stage-key.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

const transfers = ["recover", "charge", "restore", "prove", "evacuate"];
const runs = ["prove", "run", "restore"];
const holds = ["evacuate", "restore"];

/** Everything else that may be entered at this stage. */
export function MoreActs({ trial, stage }: Props) {
  const at = (...step: readonly string[]): string =>
    pathTo("trial", trial, ...stageParts(stage), ...step);
  const acts = [
    stage.prompts.length > 0 && { label: "Take any reading", href: at("readings") },
    transfers.includes(stage.stage) && { label: "Post a transfer", href: at("transfer") },
    transfers.includes(stage.stage) && { label: "A vessel was found empty", href: at("empty") },
    runs.includes(stage.stage) && { label: "Import a logger file", href: at("import", "run") },
    runs.includes(stage.stage) && { label: "Record a run by hand", href: at("run") },
    holds.includes(stage.stage) && { label: "Type a hold", href: at("hold") },
    holds.includes(stage.stage) && { label: "Import a hold trace", href: at("import", "hold") },
    stage.stage === "identify" && { label: "Enter what a tester said", href: at("test") },
    { label: "Write a note", href: at("note") },
  ].filter((act) => act !== false);
  return (
    <section class="more-acts" aria-labelledby="more">
      <h2 id="more">More at this stage</h2>
      <ul>
        {acts.map((act) => (
          <li key={act.label}>
            <a class="button" href={act.href}>
              {act.label}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
