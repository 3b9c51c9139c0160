import { useId } from "preact/hooks";
import {
  ComparisonChart,
  comparisonTable,
  conditionsSentence,
  FoldedTable,
  conditionNames,
  readingName,
  type Shown,
  unitChoice,
} from "../../report/index.ts";
import type { Comparison, DifferenceRow, TrialView } from "../../trial/index.ts";
import { Fit } from "../look/fit.tsx";
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
      {seen.comparisons.map((comparison) => (
        <ComparisonSheet
          key={`${comparison.product} ${comparison.condition}`}
          comparison={comparison}
          view={seen}
        />
      ))}
      {seen.drift.length > 0 && (
        <section class="sheet">
          <h2>The vehicle’s own drift, Restore minus Prove</h2>
          <p>The same refrigerant before and after: what moved here moved without the product.</p>
          <DifferenceTable rows={seen.drift} view={seen} first="Prove" second="Restore" />
        </section>
      )}
    </>
  );
}

interface SheetProps {
  readonly comparison: Comparison;
  readonly view: TrialView;
}

function ComparisonSheet({ comparison, view: seen }: SheetProps) {
  const id = `compare${useId()}`;
  const units = unitChoice(seen, preferences.value.system);
  const product = seen.products.find((one) => one.id === comparison.product)?.name ?? "product";
  const label = seen.vehicle?.labelRefrigerant ?? "label refrigerant";
  return (
    <section class="sheet">
      <h2>
        {product} against {label}, {conditionNames[comparison.condition]}
      </h2>
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
    </section>
  );
}

interface TableProps {
  readonly rows: readonly DifferenceRow[];
  readonly view: TrialView;
  readonly first: string;
  readonly second: string;
}

function DifferenceTable({ rows, view: seen, first, second }: TableProps) {
  const units = unitChoice(seen, preferences.value.system);
  const difference = (row: DifferenceRow): Shown => units.quantityDifference(row.quantity);
  return (
    <div class="table-room" role="region" aria-label={`${first} and ${second}`} tabIndex={0}>
      <table class="table">
        <caption>With 95 % intervals</caption>
        <thead>
          <tr>
            <th scope="col">Reading</th>
            <th scope="col">{first}</th>
            <th scope="col">{second}</th>
            <th scope="col">Difference</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.condition} ${row.quantity} ${row.form}`}>
              <th scope="row">
                {readingName(row.quantity, row.form)}
                <small class="quiet">{conditionNames[row.condition]}</small>
              </th>
              <td class="figure">{units.quantity(row.quantity).pair(row.baseline)}</td>
              <td class="figure">{units.quantity(row.quantity).pair(row.other)}</td>
              <td class="figure">{difference(row).pair(row.difference)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
