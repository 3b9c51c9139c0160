import type { ReadingForm, ReadingQuantity } from "./events.ts";
import type { Measured } from "./measured.ts";
import type { Comparison, DifferenceRow, RunValue, RunView } from "./view.ts";

/**
 * Products against the label refrigerant as they were measured: no correction for the day. The
 * statement of what was not equal stands beside every row.
 *
 * Source: GUM 5.1.2 (difference); A–B–A mean of the baseline: docs/models/settled-values.md.
 */
const resultQuantities: readonly ReadingQuantity[] = ["vent-temperature", "low-side", "high-side"];
const conditionQuantities: readonly ReadingQuantity[] = [
  "outside-temperature",
  "outside-humidity",
  "return-air-temperature",
  "return-air-humidity",
  "vehicle-speed",
  "engine-speed",
];
const forms: readonly ReadingForm[] = ["steady", "lowest", "highest"];

/** One figure of several runs: the mean, its scatter, and the instrument's share, which no mean removes. */
interface Pooled {
  readonly value: number;
  readonly uRepeatability: number;
  readonly uInstrument: number;
  readonly instrument: string | undefined;
  readonly runs: readonly string[];
}

/** @param labelRefrigerant  Fluid id of the vehicle's label: its runs are the baseline. */
export function comparisons(
  runs: readonly RunView[],
  labelRefrigerant: string | undefined,
): Comparison[] {
  const baseline = runs.filter((run) => isBaseline(run, labelRefrigerant));
  const products = new Set(
    runs.flatMap(({ charged }) => (charged.kind === "product" ? [charged.product] : [])),
  );
  return [...products].flatMap((product) => {
    const mine = runs.filter(
      ({ charged }) => charged.kind === "product" && charged.product === product,
    );
    return conditionsOf(mine).flatMap((condition) => {
      const [a, b] = [inCondition(baseline, condition), inCondition(mine, condition)];
      if (a.length === 0) return [];
      const conditions = rowsOf(conditionQuantities, a, b);
      return [
        {
          product,
          condition,
          rows: rowsOf(resultQuantities, a, b),
          conditions,
          unmeasured: unmeasured(conditions),
        },
      ];
    });
  });
}

/** Label refrigerant in Restore minus label refrigerant in Prove, in each condition both have. */
export function driftRows(
  runs: readonly RunView[],
  labelRefrigerant: string | undefined,
): DifferenceRow[] {
  const baseline = runs.filter((run) => isBaseline(run, labelRefrigerant));
  const before = baseline.filter(({ stage }) => stage === "prove");
  const after = baseline.filter(({ stage }) => stage === "restore");
  return conditionsOf(after).flatMap((condition) =>
    rowsOf(
      [...resultQuantities, ...conditionQuantities],
      inCondition(before, condition),
      inCondition(after, condition),
    ),
  );
}

export const isBaseline = ({ charged }: RunView, label: string | undefined): boolean =>
  charged.kind === "fluid" && charged.fluid === label;

const conditionsOf = (runs: readonly RunView[]): RunView["condition"][] => [
  ...new Set(runs.map(({ condition }) => condition)),
];

const inCondition = (runs: readonly RunView[], condition: RunView["condition"]): RunView[] =>
  runs.filter((run) => run.condition === condition);

function rowsOf(
  quantities: readonly ReadingQuantity[],
  baseline: readonly RunView[],
  other: readonly RunView[],
): DifferenceRow[] {
  const rows: DifferenceRow[] = [];
  const condition = other[0]?.condition;
  if (!condition) return rows;
  for (const quantity of quantities) {
    for (const form of forms) {
      const a = pooled(baseline, quantity, form);
      const b = pooled(other, quantity, form);
      if (a && b) rows.push(rowOf({ quantity, form, condition }, a, b));
    }
  }
  return rows;
}

function rowOf(
  what: Pick<DifferenceRow, "quantity" | "form" | "condition">,
  a: Pooled,
  b: Pooled,
): DifferenceRow {
  const named = a.instrument !== undefined && b.instrument !== undefined;
  const instrument = !named ? "not-named" : a.instrument === b.instrument ? "shared" : "different";
  const uScatter = Math.hypot(a.uRepeatability, b.uRepeatability);
  const uClass = instrument === "shared" ? 0 : Math.hypot(a.uInstrument, b.uInstrument);
  return {
    ...what,
    baseline: whole(a),
    other: whole(b),
    difference: { value: b.value - a.value, u: Math.hypot(uScatter, uClass) },
    instrument,
    baselineRuns: a.runs,
    otherRuns: b.runs,
  };
}

const whole = ({ value, uRepeatability, uInstrument }: Pooled): Measured => ({
  value,
  u: Math.hypot(uRepeatability, uInstrument),
});

function pooled(
  runs: readonly RunView[],
  quantity: ReadingQuantity,
  form: ReadingForm,
): Pooled | undefined {
  const figures = runs.flatMap((run) => {
    const figure = best(run.values.filter((v) => v.quantity === quantity && v.form === form));
    return figure ? [{ run: run.id, ...figure }] : [];
  });
  return figures.length === 0
    ? undefined
    : { ...average(figures), runs: figures.map(({ run }) => run) };
}

const trust: readonly RunValue["standing"][] = ["settled", "cycling", "typed", "still-moving"];

/** The most trustworthy kind that a run has; several sensors of that kind are averaged. */
export function best(values: readonly RunValue[]): Omit<Pooled, "runs"> | undefined {
  const kind = trust.find((standing) => values.some((value) => value.standing === standing));
  const chosen = values.filter(({ standing }) => standing === kind);
  return chosen.length === 0
    ? undefined
    : average(
        chosen.map(({ value, uRepeatability, uInstrument = 0, instrument }) => ({
          value,
          uRepeatability,
          uInstrument,
          instrument,
        })),
      );
}

/** Scatter shrinks with the number of figures; the instrument's limit is taken as common to all. */
function average(figures: readonly Omit<Pooled, "runs">[]): Omit<Pooled, "runs"> {
  const n = figures.length;
  const sum = (pick: (figure: Omit<Pooled, "runs">) => number) =>
    figures.reduce((all, figure) => all + pick(figure), 0);
  const instruments = new Set(figures.map(({ instrument }) => instrument));
  return {
    value: sum(({ value }) => value) / n,
    uRepeatability: Math.sqrt(sum(({ uRepeatability }) => uRepeatability ** 2)) / n,
    uInstrument: sum(({ uInstrument }) => uInstrument) / n,
    instrument: instruments.size === 1 ? figures[0]?.instrument : undefined,
  };
}

/** The air that enters the evaporator moves every result, so its absence is told. */
const mostWanted = ["return-air-temperature", "return-air-humidity"] as const;

const unmeasured = (rows: readonly DifferenceRow[]): ReadingQuantity[] =>
  mostWanted.filter((quantity) => !rows.some((row) => row.quantity === quantity));
