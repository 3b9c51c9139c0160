import type { Requirement, StageView } from "../../trial/index.ts";
import { pathTo } from "../shell/route.ts";
import { stageParts } from "./stage-key.ts";

/** A way to do something: its words and its place. */
export interface Act {
  readonly label: string;
  readonly href: string;
}

const setUpKinds: readonly (readonly [RegExp, string])[] = [
  [/vehicle/, "vehicle"],
  [/instrument/, "instrument"],
  [/product/, "product"],
  [/vessel/, "vessel"],
];

/** The act that meets a thing of the set-up, by the requirement's id. */
const setUpKind = (id: string): string | undefined =>
  setUpKinds.find(([word]) => word.test(id))?.[1];

/** What a tap on a requirement does. */
export function actFor(trial: string, stage: StageView, requirement: Requirement, opening?: string): Act {
  const at = (...step: readonly string[]): string =>
    pathTo("trial", trial, ...stageParts(stage), ...step);
  const prompt = stage.prompts.find(({ id }) => requirement.prompts.includes(id));
  switch (requirement.kind) {
    case "reading":
      return prompt
        ? { label: `Read: ${prompt.label}`, href: at("reading", prompt.id) }
        : { label: "Take a reading", href: at("readings") };
    case "transfer":
      return /empty/.test(requirement.id)
        ? { label: "Record that it is empty", href: at("empty") }
        : { label: "Post the transfer", href: at("transfer") };
    case "run":
      if (stage.stage === "compare") {
        return { label: "Go to the stages", href: pathTo("trial", trial, "stages") };
      }
      return { label: "Import the logger’s file", href: at("import", "run") };
    case "import":
      return {
        label: "Import the hold",
        href: at("import", stage.stage === "evacuate" || stage.stage === "restore" ? "hold" : "run"),
      };
    case "confirm":
      return { label: "Look and confirm", href: at("confirm", requirement.id) };
    case "set-up": {
      const kind = setUpKind(requirement.id);
      return kind === undefined
        ? { label: "Complete the question", href: pathTo("trial", trial, "correct", opening ?? "") }
        : { label: `List it: ${kind}`, href: pathTo("trial", trial, "add", kind) };
    }
  }
}

/** Readings of a requirement that are still to be taken, in the order in which they are asked. */
export function openPrompts(stage: StageView, taken: ReadonlySet<string>): readonly string[] {
  return stage.requirements
    .filter(({ met, kind }) => !met && kind === "reading")
    .flatMap(({ prompts }) => prompts)
    .filter((id) => !taken.has(id));
}
