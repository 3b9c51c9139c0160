import { useId } from "preact/hooks";
import {
  ComparisonChart,
  comparisonTable,
  conditionNames,
  conditionsSentence,
  DataTable,
  FoldedTable,
  readingName,
  unitChoice,
} from "../../report/index.ts";
import type { Comparison, DifferenceRow, TrialView } from "../../trial/index.ts";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { SavePicture } from "../pictures/save-picture.tsx";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";

/** Each product beside the label refrigerant, as measured: the conditions were not equal, and it says so. */
export function CompareBoard() {
  const seen = view.value;
  return (
    <>
      {seen.comparisons.length === 0 && (
        <p class="empty">
          Nothing can be compared yet. It takes a run on the label refrigerant in Prove and a run of
          a product in the same condition.
        </p>
      )}
      {seen.comparisons.length > 0 && (
        <section class="sheet fold-rows">
          <h2>As measured, in conditions that were not equal</h2>
          {seen.comparisons.map((comparison) => (
            <ComparisonPart
              key={`${comparison.product} ${comparison.condition}`}
              comparison={comparison}
              view={seen}
            />
          ))}
        </section>
      )}
      {seen.drift.length > 0 && (
        <Fold
          level={2}
          title="The vehicle’s own drift, Restore minus Prove"
          said={`${seen.drift.length} figures`}
        >
          <p>The same refrigerant before and after: what moved here moved without the product.</p>
          <DifferenceTable rows={seen.drift} view={seen} first="Prove" second="Restore" />
        </Fold>
      )}
    </>
  );
}

interface PartProps {
  readonly comparison: Comparison;
  readonly view: TrialView;
}

function ComparisonPart({ comparison, view: seen }: PartProps) {
  const id = `compare${useId()}`;
  const units = unitChoice(seen, preferences.value.system);
  const product = seen.products.find((one) => one.id === comparison.product)?.name ?? "product";
  const label = seen.vehicle?.labelRefrigerant ?? "label refrigerant";
  return (
    <Fold
      row
      open={false}
      title={`${product} against ${label}, ${conditionNames[comparison.condition]}`}
    >
      <p class="unequal">
        <strong>As measured.</strong> {conditionsSentence(comparison, units)}
      </p>
      <Fit>
        {(width) => {
          const picture = {
            id,
            title: `${product} and ${label}, as measured`,
            rows: comparison.rows.map((row) => ({
              name: readingName(row.quantity, row.form),
              shown: units.quantity(row.quantity),
              shownDifference: units.quantityDifference(row.quantity),
              charges: [
                { name: label, measured: row.baseline },
                { name: product, measured: row.other, difference: row.difference },
              ],
            })),
            width,
          };
          return (
            <>
              <ComparisonChart {...picture} />
              <FoldedTable table={comparisonTable(picture)} />
              <SavePicture
                picture={{
                  title: picture.title,
                  note: "Coldproof. As measured; conditions were not equal. Whiskers: 95 %.",
                  draw: (wide) => <ComparisonChart {...picture} width={wide} />,
                }}
              />
            </>
          );
        }}
      </Fit>
      {comparison.conditions.length > 0 && (
        <details>
          <summary>What was not equal</summary>
          <DifferenceTable
            rows={comparison.conditions}
            view={seen}
            first={label}
            second={product}
          />
        </details>
      )}
    </Fold>
  );
}

interface TableProps {
  readonly rows: readonly DifferenceRow[];
  readonly view: TrialView;
  readonly first: string;
  readonly second: string;
}

/** The difference stands first: it is what the table is for. */
function DifferenceTable({ rows, view: seen, first, second }: TableProps) {
  const units = unitChoice(seen, preferences.value.system);
  return (
    <DataTable
      caption={`${second} minus ${first}, with 95 % intervals`}
      head={["Reading", "Difference", first, second]}
      rows={rows.map((row) => [
        `${readingName(row.quantity, row.form)}, ${conditionNames[row.condition]}`,
        units.quantityDifference(row.quantity).pair(row.difference),
        units.quantity(row.quantity).pair(row.baseline),
        units.quantity(row.quantity).pair(row.other),
      ])}
    />
  );
}
