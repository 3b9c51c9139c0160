import {
  type Issue,
  type ReadingForm,
  type ReadingInContext,
  type ReadingPrompt,
  type StageView,
  type TrialView,
} from "../../trial/index.ts";
import { isUnit, parseQuantity, type Quantity } from "../../units/index.ts";
import { instantOfField } from "../forms/instant.ts";
import type { Draft } from "../shell/drafts.ts";
import { unitFor } from "../shell/preferences.ts";
import { offeredInstrument } from "./instruments.ts";

export const readingKey = (stage: StageView, prompt: ReadingPrompt): string =>
  `reading ${stage.stage} ${stage.round ?? "-"} ${prompt.id}`;

/** Steady is one figure; a cycling clutch has two, and either alone misleads. */
export const formsShown = (prompt: ReadingPrompt, draft: Draft): readonly ReadingForm[] => {
  const swings = prompt.forms.filter((form) => form !== "steady");
  const steady = prompt.forms.filter((form) => form === "steady");
  const chosen = draft["form"] ?? (prompt.forms[0] === "steady" ? "steady" : "cycling");
  if (chosen === "cycling" && swings.length > 0) return swings;
  return steady.length > 0 ? steady : swings;
};

export const readingUnit = (prompt: ReadingPrompt, draft: Draft): string => {
  const chosen = draft["unit"] ?? unitFor(prompt.quantity, prompt.defaultUnit);
  return isUnit(chosen, prompt.dimension) ? chosen : prompt.defaultUnit.si;
};

export const readingInstrument = (view: TrialView, prompt: ReadingPrompt, draft: Draft): string =>
  draft["instrument"] ?? offeredInstrument(view, prompt);

/** The run a reading belongs to: the one chosen, else the latest of this stage. */
export function readingRun(view: TrialView, stage: StageView, draft: Draft): string {
  const runs = view.runs.filter((run) => run.stage === stage.stage && run.round === stage.round);
  return draft["run"] ?? runs.at(-1)?.id ?? "";
}

/** Readings of a running system belong to a run; static, vacuum and mass readings do not. */
const running: readonly string[] = [
  "low-side",
  "high-side",
  "vent-temperature",
  "return-air-temperature",
  "return-air-humidity",
  "outside-temperature",
  "outside-humidity",
  "vehicle-speed",
  "engine-speed",
];
export const belongsToRun = (prompt: ReadingPrompt): boolean => running.includes(prompt.quantity);

export type Typed =
  | { readonly kind: "empty" }
  | { readonly kind: "quantity"; readonly quantity: Quantity }
  | { readonly kind: "invalid"; readonly accepted: string };

export function typedValue(prompt: ReadingPrompt, draft: Draft, form: ReadingForm): Typed {
  const text = draft[form] ?? "";
  if (text.trim() === "") return { kind: "empty" };
  return parseQuantity(text, prompt.dimension, readingUnit(prompt, draft));
}

interface Where {
  readonly view: TrialView;
  readonly stage: StageView;
  readonly prompt: ReadingPrompt;
  readonly draft: Draft;
}

/** The reading as the verdict wants it, while it is still being typed. */
export function readingInContext(where: Where, form: ReadingForm, typed: Quantity): ReadingInContext {
  const { view, stage, prompt, draft } = where;
  const instrument = readingInstrument(view, prompt, draft);
  const run = belongsToRun(prompt) ? readingRun(view, stage, draft) : "";
  return {
    quantity: prompt.quantity,
    form,
    typed,
    stage: stage.stage,
    ...(instrument !== "" && { instrument }),
    ...(stage.round !== undefined && { round: stage.round }),
    ...(run !== "" && { run }),
  };
}

export interface ReadingBodies {
  readonly bodies: readonly Readonly<Record<string, unknown>>[];
  readonly issues: readonly Issue[];
}

/** The entries that saving would make, or what stands in the way. */
export function readingBodies(where: Where): ReadingBodies {
  const { prompt, draft } = where;
  const when = instantOfField(draft["when"] ?? "");
  const note = (draft["note"] ?? "").trim();
  const bodies: Record<string, unknown>[] = [];
  const issues: Issue[] = [];
  for (const form of formsShown(prompt, draft)) {
    const typed = typedValue(prompt, draft, form);
    if (typed.kind !== "quantity") {
      const accepted = typed.kind === "empty" ? "a number" : typed.accepted;
      issues.push({ field: form, value: draft[form] ?? "", accepted });
      continue;
    }
    bodies.push({
      ...readingInContext(where, form, typed.quantity),
      value: typed.quantity,
      ...(prompt.place !== undefined && { place: prompt.place }),
      ...(prompt.vessel !== undefined && { vessel: prompt.vessel }),
      ...(note !== "" && { note }),
      ...(when !== undefined && { when }),
    });
  }
  return { bodies: bodies.map(withoutTyped), issues };
}

function withoutTyped(body: Readonly<Record<string, unknown>>) {
  return Object.fromEntries(Object.entries(body).filter(([name]) => name !== "typed"));
}
