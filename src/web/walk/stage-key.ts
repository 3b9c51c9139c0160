import type { StageView } from "../../trial/index.ts";

/** The round's part of a place: the product's id, or "-" for stages walked once. */
export const roundPart = (round: string | undefined): string => round ?? "-";

export const stageParts = (stage: StageView): readonly string[] => [
  "stage",
  stage.stage,
  roundPart(stage.round),
];

export const isAt = (stage: StageView, parts: readonly string[]): boolean =>
  stageParts(stage).every((part, i) => part === parts[i]);

const words = { "not-started": "not started", open: "open", done: "done" } as const;
export const statusWord = (stage: StageView): string => words[stage.status];
