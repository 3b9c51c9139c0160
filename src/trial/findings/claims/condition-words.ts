import type { RunView } from "../../view.ts";

/** Conditions at the beginning of a sentence. */
export const conditionWords: Readonly<Record<RunView["condition"], string>> = {
  "parked-idle": "Parked at idle",
  "parked-raised-idle": "Parked at raised idle",
  "road-steady": "On the road at steady speed",
  "road-mixed": "On the road, mixed driving",
};
