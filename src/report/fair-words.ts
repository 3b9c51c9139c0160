import type { FairComparison, FairRow, ReadingQuantity } from "../trial/index.ts";
import type { UnitChoice } from "./choose-unit.ts";
import { conditionNames, readingName } from "./names.ts";
import type { FairChartProps } from "./pictures/fair-chart.tsx";
import type { PictureTable } from "./pictures/picture.tsx";
import type { Shown } from "./shown.ts";

type Compared = FairComparison & { readonly kind: "compared" };

/** Reading that each compared quantity is. */
export const fairReadings: Readonly<Record<FairRow["quantity"], ReadingQuantity>> = {
  vent: "vent-temperature",
  low: "low-side",
  high: "high-side",
};

export const fairShown = (row: Pick<FairRow, "quantity">, units: UnitChoice): Shown =>
  units.quantityDifference(fairReadings[row.quantity]);

export const fairName = ({ quantity, form }: Pick<FairRow, "quantity" | "form">): string =>
  readingName(fairReadings[quantity], form);

const directions = {
  vent: ["colder", "warmer"],
  low: ["lower", "higher"],
  high: ["lower", "higher"],
} as const;

/** Nothing is left of it at the digits that are shown. */
const isNone = (size: string): boolean => !/[1-9]/.test(size);

/** "0.8 °C colder"; what rounds to nothing has no direction. */
function sized(value: number, u: number, quantity: FairRow["quantity"], shown: Shown): string {
  const [below, above] = directions[quantity];
  const size = shown.text(Math.abs(value), u).replace(/^\+/u, "");
  return isNone(size) ? size : `${size} ${value < 0 ? below : above}`;
}

/** The interval in words: both ends with their direction. */
export function fairInterval(
  {
    interval,
    quantity,
    equalConditions: { u },
  }: Pick<FairRow, "interval" | "quantity" | "equalConditions">,
  shown: Shown,
): string {
  return `${sized(interval.from, u, quantity, shown)} to ${sized(interval.to, u, quantity, shown)}`;
}

/** What one row says, in the order in which it is asked: how much, how sure, does it matter. */
export function fairSentence(row: FairRow, label: string, units: UnitChoice): string {
  const shown = fairShown(row, units);
  const { equalConditions, quantity, verdict, margin } = row;
  const size = sized(equalConditions.value, equalConditions.u, quantity, shown);
  const most = shown.text(margin).replace(/^\+/u, "");
  const what = fairName(row).toLowerCase();
  const reach = `95\u00a0%: ${fairInterval(row, shown)}`;
  const against = isNone(size)
    ? `showed no difference from ${label} (${size}; ${reach})`
    : `was ${size} than with ${label} (${reach})`;
  const found = `In equal conditions, ${conditionNames[row.condition]}, ${what} ${against}.`;
  if (verdict === "equivalent") return `${found} That is equivalent within the margin of ${most}.`;
  if (verdict === "undecided") {
    const least = shown.text(row.smallestDetectable, equalConditions.u).replace(/^\+/u, "");
    return `${found} Against the margin of ${most} that decides nothing; this trial could have found ${least}.`;
  }
  return `${found} That is ${verdict} by more than the margin of ${most}.`;
}

/** As measured beside equal conditions, a row a quantity and condition. */
export const fairTable = (
  rows: readonly FairRow[],
  caption: string,
  units: UnitChoice,
): PictureTable => ({
  caption,
  head: ["Reading", "As measured", "Equal conditions", "95 %", "Verdict", "Could find"],
  rows: rows.map((row) => {
    const shown = fairShown(row, units);
    return [
      `${fairName(row)}, ${conditionNames[row.condition]}`,
      shown.pair(row.asMeasured),
      shown.pair(row.equalConditions),
      fairInterval(row, shown),
      row.verdict,
      shown.text(row.smallestDetectable, row.equalConditions.u).replace(/^\+/u, ""),
    ];
  }),
});

/** One product's effects in the standard conditions. */
export const standardTable = (
  { standard }: Compared,
  product: string,
  label: string,
  units: UnitChoice,
): PictureTable => ({
  caption: `Carried to standard conditions, 50 % relative humidity; ${label} from the fitted model`,
  head: ["Conditions", "Reading", label, "Difference", "Verdict"],
  rows: standard
    .filter((row) => row.product === product)
    .map((row) => {
      const quantity = fairReadings[row.quantity];
      return [
        `${units.quantity("outside-temperature").nominal(row.ambient)}, ${row.driving ? "72 km/h (45 mph)" : "parked at idle"}`,
        readingName(quantity, "steady"),
        units.quantity(quantity).pair(row.label),
        units.quantityDifference(quantity).pair(row.effect),
        row.verdict,
      ];
    }),
});

/** The lumps of the fit: what was expected before, what the runs say. */
export const lumpTable = ({ calibration }: Compared): PictureTable => ({
  caption: "The model fitted to this vehicle’s runs on the label refrigerant (95 %)",
  head: ["What", "Before the runs", "After the runs"],
  rows: calibration.lumps.map(({ what, unit, form, prior, posterior }) => {
    const size = unit === "Pa" ? 1e3 : 1;
    const name = unit === "Pa" ? " kPa" : unit === "K" ? " K" : "";
    const two = (value: number): string => value.toFixed(2).replace("-", "−");
    const spread =
      form === "factor"
        ? `× ${two(Math.exp(-1.96 * prior.u))} to × ${two(Math.exp(1.96 * prior.u))}`
        : `± ${two((1.96 * prior.u) / size)}${name}`;
    const found =
      form === "factor"
        ? `× ${two(posterior.value)} ± ${two(1.96 * posterior.u)}`
        : `${two(posterior.value / size)} ± ${two((1.96 * posterior.u) / size)}${name}`;
    return [what, spread, found];
  }),
});

/** Every product's vent air in one picture: what it shows, without id and width. */
export function ventPicture(
  { rows }: Compared,
  nameOf: (product: string) => string,
  units: UnitChoice,
): Omit<FairChartProps, "id" | "width"> {
  const vents = rows.filter(({ quantity }) => quantity === "vent");
  return {
    title: "Vent air against the label refrigerant: as measured, and in equal conditions",
    shown: units.quantityDifference("vent-temperature"),
    rows: vents.map((row) => ({
      name: `${nameOf(row.product)}, ${conditionNames[row.condition]}: ${row.verdict}`,
      row,
    })),
  };
}
