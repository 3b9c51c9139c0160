import { repeatedStages, type Stage, stages } from "../events.ts";
import type { Entry, TrialView } from "../view.ts";
import * as rules from "./by-stage.ts";
import { cautionsFor } from "./cautions.ts";
import { promptsFor } from "./prompts.ts";
import { type Facts, type Place, type Standing } from "./requirements.ts";
import { stageTexts } from "./texts.ts";
import type { Treatment } from "./treatment.ts";
import type { Caution, StageView } from "./view.ts";

/** The stages in the order they are usually walked: Recover to Run once a product, the rest once. */
function places({ products }: Facts): Place[] {
  const before: Place[] = ["plan", "prove"].map((stage) => ({
    stage: stage as Stage,
    round: undefined,
  }));
  const rounds = products.length > 0 ? products.map(({ id }) => id) : [undefined];
  const repeated = rounds.flatMap((round) =>
    repeatedStages.map((stage): Place => ({ stage, round })),
  );
  const after = stages
    .slice(stages.indexOf("restore"))
    .map((stage): Place => ({ stage, round: undefined }));
  return [...before, ...repeated, ...after];
}

/** Where every stage stands. Nothing forbids an order: status follows from what the log holds. */
export function stageViews(facts: Facts, entries: Standing): StageView[] {
  const begun = new Set(entries.map(placeOf));
  return places(facts).map((place) => stageView(facts, entries, place, begun));
}

function stageView(
  facts: Facts,
  entries: Standing,
  place: Place,
  begun: ReadonlySet<string>,
): StageView {
  const { stage, round } = place;
  const requirements = rules[stage](facts, entries, place);
  const started = begun.has(`${stage} ${round ?? ""}`);
  return {
    stage,
    ...(round !== undefined && { round }),
    ...stageTexts[stage],
    status: statusOf(
      started,
      requirements.every(({ met }) => met),
    ),
    requirements,
    cautions: cautionsAt(facts, place),
    prompts: promptsFor(stage, facts.vehicle, facts.vessels),
  };
}

/**
 * Cautions of a stage.
 *
 * @param treated What products are handled as, where their contents were weighed: it takes long, so no projection does it.
 */
export function cautionsAt(
  { products, vehicle }: Pick<TrialView, "products" | "vehicle">,
  { stage, round }: { readonly stage: Stage; readonly round?: string | undefined },
  treated?: ReadonlyMap<string, Treatment>,
): Caution[] {
  const about = products.filter(({ id }) => round === undefined || id === round);
  return cautionsFor(stage, about, { vehicle, treated });
}

function statusOf(started: boolean, complete: boolean): StageView["status"] {
  if (complete) return "done";
  return started ? "open" : "not-started";
}

/** Lists and the opening belong to Plan; samples to their stream; everything else says where it belongs. */
function placeOf({ type, body }: Entry): string {
  if (type === "samples-received") return "";
  if (!("stage" in body)) return "plan ";
  return `${body.stage} ${body.round ?? ""}`;
}
