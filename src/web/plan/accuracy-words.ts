import type { Accuracy, InstrumentView } from "../../trial/index.ts";
import { formatQuantity } from "../../units/index.ts";

/** An accuracy as a person would read it on the instrument. */
export function accuracyWords(accuracy: Accuracy): string {
  switch (accuracy.kind) {
    case "percent-of-span":
      return `± ${accuracy.percent} % of ${formatQuantity(accuracy.from)} to ${formatQuantity(accuracy.to)}`;
    case "percent-of-span-by-quarter":
      return `± ${accuracy.outer} % in the outer quarters, ± ${accuracy.middle} % in the middle, of ${formatQuantity(accuracy.from)} to ${formatQuantity(accuracy.to)}`;
    case "limit":
      return `± ${formatQuantity(accuracy.limit)}`;
    case "percent-of-reading":
      return `± ${accuracy.percent} % of the reading`;
    case "limit-or-percent":
      return `± ${formatQuantity(accuracy.limit)} or ${accuracy.percent} % of the reading, the larger`;
  }
}

export const instrumentWords = ({ accuracy, resolution }: InstrumentView): string =>
  `${accuracyWords(accuracy)}${resolution ? `, steps of ${formatQuantity(resolution)}` : ""}`;
