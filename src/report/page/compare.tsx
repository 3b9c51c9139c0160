import type { Comparison, DifferenceRow, RunView } from "../../trial/index.ts";
import { conditionsSentence } from "../conditions-sentence.ts";
import { conditionNames, readingName } from "../names.ts";
import {
  ComparisonChart,
  type ComparisonRow,
  comparisonTable,
} from "../pictures/comparison-chart.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import { VerdictWord } from "../pictures/verdict-mark.tsx";
import { ventRow, ventWords } from "./answer.ts";
import { capital, type Page, productName } from "./context.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

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
