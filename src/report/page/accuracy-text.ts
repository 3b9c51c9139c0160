import type { InstrumentView } from "../../trial/index.ts";
import { typedText } from "./entry-sentence.ts";

/** An instrument's limit of error as its maker or its standard words it. */
export function accuracyText({ accuracy }: InstrumentView): string {
  switch (accuracy.kind) {
    case "percent-of-span":
      return `± ${accuracy.percent} % of span, ${typedText(accuracy.from)} to ${typedText(accuracy.to)}`;
    case "percent-of-span-by-quarter":
      return `± ${accuracy.middle} % of span in the middle half, ± ${accuracy.outer} % in the outer quarters, ${typedText(accuracy.from)} to ${typedText(accuracy.to)}`;
    case "limit":
      return `± ${typedText(accuracy.limit)}`;
    case "percent-of-reading":
      return `± ${accuracy.percent} % of reading`;
    case "limit-or-percent":
      return `± ${typedText(accuracy.limit)} or ± ${accuracy.percent} % of reading, whichever is larger`;
  }
}
