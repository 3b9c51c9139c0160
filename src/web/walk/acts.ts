import type { Requirement, StageView, TrialView } from "../../trial/index.ts";
import { readingsTaken } from "../readings/taken.ts";
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

const listing: Readonly<Record<string, string>> = {
  vehicle: "Describe the vehicle",
  instrument: "List an instrument",
  product: "List a product",
  vessel: "List a vessel",
};

/** The act that meets a thing of the set-up, by the requirement's id. */
const setUpKind = (id: string): string | undefined =>
  setUpKinds.find(([word]) => word.test(id))?.[1];

interface Where {
  readonly trial: string;
  readonly stage: StageView;
  /** The entry that opened the trial: the question is corrected there. */
  readonly opening: string | undefined;
  /** Prompts of the stage that have a reading. */
  readonly taken: ReadonlySet<string>;
}

export const actsAt = (trial: string, stage: StageView, view: TrialView): Where => ({
  trial,
  stage,
  opening: view.opened?.entry,
  taken: readingsTaken(view, stage),
});

/** The verdict on a pressure rests on a temperature: that one is read first. */
const bases = ["metal-temperature", "shop-temperature"];
const basisFirst = (prompts: readonly string[]): readonly string[] => [
  ...prompts.filter((id) => bases.includes(id)),
  ...prompts.filter((id) => !bases.includes(id)),
];

/** What a tap on a requirement does. */
export function actFor({ trial, stage, opening, taken }: Where, requirement: Requirement): Act {
  const at = (...step: readonly string[]): string =>
    pathTo("trial", trial, ...stageParts(stage), ...step);
  const first = basisFirst(requirement.prompts.filter((id) => !taken.has(id)))[0];
  const prompt = stage.prompts.find(({ id }) => id === (first ?? requirement.prompts[0]));
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
      return stage.stage === "evacuate" || stage.stage === "restore"
        ? { label: "Type the hold", href: at("hold") }
        : { label: "Import the file", href: at("import", "run") };
    case "confirm":
      return { label: "Look and confirm", href: at("confirm", requirement.id) };
    case "set-up": {
      const kind = setUpKind(requirement.id);
      return kind === undefined
        ? { label: "Complete the question", href: pathTo("trial", trial, "correct", opening ?? "") }
        : { label: listing[kind] ?? "List it", href: pathTo("trial", trial, "add", kind) };
    }
  }
}

/** What is still to be read for the requirements that a reading serves: the rest of one round of gauges. */
export function openPrompts(
  stage: StageView,
  saved: string,
  taken: ReadonlySet<string>,
): readonly string[] {
  const open = stage.requirements
    .filter(({ met, kind, prompts }) => !met && kind === "reading" && prompts.includes(saved))
    .flatMap(({ prompts }) => prompts);
  return basisFirst(open.filter((id) => !taken.has(id)));
}
