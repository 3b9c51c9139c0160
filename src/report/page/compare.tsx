import type { Comparison, DifferenceRow, FairDriftRow, RunView } from "../../trial/index.ts";
import { conditionsSentence } from "../conditions-sentence.ts";
import { conditionNames, readingName } from "../names.ts";
import {
  ComparisonChart,
  type ComparisonRow,
  comparisonTable,
} from "../pictures/comparison-chart.tsx";
import { fairName, fairShown } from "../fair-words.ts";
import { DriftScale } from "../pictures/drift-scales.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import { ventRow, ventWords } from "./answer.ts";
import { capital, type Page, productName } from "./context.ts";
import { NARROW, Section, type SectionEntry, Twice } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

const labelName = ({ view }: Page): string => view.vehicle?.labelRefrigerant ?? "label refrigerant";

/** Each product against the label refrigerant, condition by condition, as it was read. */
export const CompareAsMeasured = ({ page, id, title }: { page: Page } & SectionEntry) => (
  <Section
    id={id}
    title={title}
    lead={
      page.view.comparisons.length === 0
        ? "No product was run in a condition in which the label refrigerant was run too, so there is nothing to compare."
        : "Readings side by side as they were taken. Conditions were not equal; the differences are those of product and weather together."
    }
  >
    {conditionsOf(page.view.comparisons).map((condition) => (
      <InCondition key={condition} condition={condition} page={page} />
    ))}
  </Section>
);

const conditionsOf = (comparisons: readonly Comparison[]): RunView["condition"][] => [
  ...new Set(comparisons.map(({ condition }) => condition)),
];

function InCondition({ condition, page }: { condition: RunView["condition"]; page: Page }) {
  const here = page.view.comparisons.filter((comparison) => comparison.condition === condition);
  const picture = {
    title: comparisonTitle(here, page),
    rows: chartRows(
      here.map(({ product, rows }) => ({ name: productName(page, product), rows })),
      page,
    ),
  };
  return (
    <div class="comparison">
      <h3>{capital(conditionNames[condition])}</h3>
      <Twice
        id={`comparison-${condition}`}
        draw={(id, width) => <ComparisonChart id={id} width={width} {...picture} />}
      />
      <FoldedTable table={comparisonTable({ id: "", width: 0, ...picture })} />
      {here.map((comparison) => (
        <Conditions key={comparison.product} comparison={comparison} page={page} />
      ))}
    </div>
  );
}

function Conditions({ comparison, page }: { comparison: Comparison; page: Page }) {
  const name = productName(page, comparison.product);
  return (
    <div class="conditions">
      <VerdictWord kind="undecided" word="conditions not equal" />
      <p>{conditionsSentence(comparison, page.units)}</p>
      {comparison.rows.some(({ instrument }) => instrument === "shared") && (
        <p class="quiet">
          Where one instrument read both, its class cancels in the difference: the whiskers carry
          it, the ± of the difference is scatter alone.
        </p>
      )}
      {comparison.conditions.length > 0 && (
        <DataTable
          caption={`Conditions of the same runs ${conditionNames[comparison.condition]}, ${name}`}
          head={["Condition", labelName(page), name, "Difference"]}
          rows={comparison.conditions.map((row) => differenceRow(row, page))}
        />
      )}
    </div>
  );
}

function comparisonTitle(comparisons: readonly Comparison[], page: Page): string {
  const found = comparisons.flatMap((comparison) => {
    const row = ventRow(comparison);
    return row ? [`${ventWords(row, page)} with ${productName(page, comparison.product)}`] : [];
  });
  return found.length > 0
    ? `As measured, vent air was ${found.join("; ")}`
    : "As measured, without a vent temperature for both";
}

const keyOf = ({ quantity, form }: DifferenceRow): string => `${quantity} ${form}`;

/** One row a quantity; a product without that quantity leaves its line out. */
function chartRows(
  charges: readonly { readonly name: string; readonly rows: readonly DifferenceRow[] }[],
  page: Page,
): ComparisonRow[] {
  const firsts = new Map(charges.flatMap(({ rows }) => rows.map((row) => [keyOf(row), row])));
  return [...firsts.values()].map((first) => ({
    name: readingName(first.quantity, first.form),
    shown: page.units.quantity(first.quantity),
    shownDifference: page.units.quantityDifference(first.quantity),
    charges: [
      { name: labelName(page), measured: first.baseline },
      ...charges.flatMap(({ name, rows }) =>
        rows
          .filter((row) => keyOf(row) === keyOf(first))
          .map(({ other, difference }) => ({ name, measured: other, difference })),
      ),
    ],
  }));
}

function differenceRow(row: DifferenceRow, { units }: Page): string[] {
  const shown = units.quantity(row.quantity);
  return [
    readingName(row.quantity, row.form),
    shown.pair(row.baseline),
    shown.pair(row.other),
    units.quantityDifference(row.quantity).pair(row.difference),
  ];
}

/** The same vehicle on the same refrigerant, before and after: what moved without any product. */
export function Drift({ page, id, title }: { page: Page } & SectionEntry) {
  const { drift } = page.view;
  if (drift.length === 0) {
    return (
      <Section
        id={id}
        title={title}
        lead="The label refrigerant was not run again after the products, so the vehicle's own drift is not known."
      />
    );
  }
  return (
    <Section
      id={id}
      title={title}
      lead="The label refrigerant after the products minus before them: what changed without any product. A difference of a product smaller than this says nothing."
    >
      <FairDrift page={page} />
      <DataTable
        caption="As measured, conditions not made equal"
        head={["Quantity", "Before", "After", "Drift"]}
        rows={drift.map((row) => {
          const [name = "", ...numbers] = differenceRow(row, page);
          return [`${name}, ${conditionNames[row.condition]}`, ...numbers];
        })}
      />
    </Section>
  );
}

/** Scales of the vehicle against itself, where it can be told in equal conditions. */
function FairDrift({ page }: { page: Page }) {
  const { fair } = workedOut(page.view);
  if (fair.kind !== "compared") return null;
  return (
    <div class="fair-drift">
      {fair.drift
        .filter(({ quantity }) => quantity === "vent")
        .map((row) => (
          <Twice
            key={driftId(row)}
            id={driftId(row)}
            draw={(id, width) => <DriftOf id={id} width={width} row={row} page={page} />}
          />
        ))}
      <details class="numbers">
        <summary>Pressures of the label refrigerant, after minus before</summary>
        {fair.drift
          .filter(({ quantity }) => quantity !== "vent")
          .map((row) => (
            <DriftOf key={driftId(row)} id={driftId(row)} width={NARROW} row={row} page={page} />
          ))}
      </details>
    </div>
  );
}

const driftId = ({ condition, quantity, form }: FairDriftRow): string =>
  `drift-${condition}-${quantity}-${form}`;

function DriftOf({
  row,
  page,
  ...place
}: {
  row: FairDriftRow;
  page: Page;
  id: string;
  width: number;
}) {
  const { fair } = workedOut(page.view);
  if (fair.kind !== "compared") return null;
  return (
    <DriftScale
      {...place}
      title={`${fairName(row)}, ${conditionNames[row.condition]}: after minus before, in equal conditions`}
      row={row}
      margin={fair.margin.margins[row.quantity]}
      shown={fairShown(row, page.units)}
    />
  );
}
