import { type Comparison, type DifferenceRow, quantityWords } from "../trial/index.ts";
import type { UnitChoice } from "./choose-unit.ts";

/** Says what differed and what nobody measured: without both, a difference belongs to no product. */
export function conditionsSentence(
  { conditions, unmeasured }: Pick<Comparison, "conditions" | "unmeasured">,
  units: UnitChoice,
): string {
  const told = conditions.flatMap((row) => toldOf(row, units) ?? []);
  return [
    told.length > 0
      ? `Conditions were not equal: ${listed(told)} than with the label refrigerant.`
      : conditions.length > 0
        ? "No difference of conditions was seen in what was measured on both sides."
        : "No condition was measured on both sides, so nothing says that they were equal.",
    ...(unmeasured.length > 0
      ? [
          `Not measured in both: ${listed(unmeasured.map(quantityWords))}, which move these readings most.`,
        ]
      : []),
    "The differences are as measured; part of them belongs to the day and not to the product.",
  ].join(" ");
}

/** "outside air was 7.1 °F higher"; undefined for a difference that the unit's usual digits do not show. */
function toldOf(
  { quantity, form, difference }: DifferenceRow,
  units: UnitChoice,
): string | undefined {
  if (form !== "steady") return undefined;
  const shown = units.quantityDifference(quantity);
  // A shared sensor makes the difference sharper than anybody needs to read it.
  const size = shown.text(Math.abs(difference.value)).replace(/^\+/u, "");
  if (size === shown.text(0)) return undefined;
  return `${quantityWords(quantity)} was ${size} ${difference.value < 0 ? "lower" : "higher"}`;
}

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1) ?? ""}`;
