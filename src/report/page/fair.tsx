import type { FairComparison, FairRow } from "../../trial/index.ts";
import {
  fairName,
  fairSentence,
  fairShown,
  fairTable,
  lumpTable,
  standardTable,
  ventPicture,
} from "../fair-words.ts";
import { conditionNames } from "../names.ts";
import { FairChart, fairChartTable } from "../pictures/fair-chart.tsx";
import { FairScales } from "../pictures/fair-scales.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import { type Page, productName } from "./context.ts";
import { NARROW, Section, type SectionEntry, Twice } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

type Compared = FairComparison & { readonly kind: "compared" };

/** Each product against the label refrigerant as if the days had been alike, beside what was read. */
export function InEqualConditions({ page, id, title }: { page: Page } & SectionEntry) {
  const found = workedOut(page.view).fair;
  if (found.kind === "none") {
    return <Section id={id} title={title} lead={`This cannot be said yet. ${found.why}`} />;
  }
  const vents = ventPicture(found, (product) => productName(page, product), page.units);
  const products = [...new Set(found.rows.map(({ product }) => product))];
  return (
    <Section
      id={id}
      title={title}
      lead="What would have been read with the label refrigerant in the conditions of the product’s runs, through a model fitted to this vehicle on its label refrigerant. The model runs on the label refrigerant only: what it would forecast for a product counts as no evidence."
    >
      {vents.rows.length > 0 && (
        <>
          <Twice
            id="fair-vents"
            draw={(drawn, width) => <FairChart id={drawn} width={width} {...vents} />}
          />
          <p class="quiet">
            Hollow diamond: as measured, in unequal weather. Filled mark: in equal conditions.
            Whiskers: 95 %.
          </p>
          <FoldedTable table={fairChartTable({ id: "", width: 0, ...vents })} />
        </>
      )}
      {products.map((product) => (
        <OfProduct key={product} product={product} found={found} page={page} />
      ))}
      <FoldedTable summary="The fitted model" table={lumpTable(found)} />
      <ul class="assumptions">
        {found.assumptions.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </Section>
  );
}

function OfProduct({ product, found, page }: { product: string; found: Compared; page: Page }) {
  const { units } = page;
  const name = productName(page, product);
  const label = page.view.vehicle?.labelRefrigerant ?? "label refrigerant";
  const rows = found.rows.filter((row) => row.product === product);
  return (
    <div class="comparison">
      <h3>{name}</h3>
      {rows
        .filter(({ quantity }) => quantity === "vent")
        .map((row) => (
          <p key={row.condition}>{fairSentence(row, label, units)}</p>
        ))}
      {rows
        .filter(({ quantity }) => quantity === "vent")
        .map((row) => (
          <Twice
            key={row.condition}
            id={fairId(row)}
            draw={(id, width) => <Scales id={id} width={width} row={row} page={page} />}
          />
        ))}
      <details class="numbers">
        <summary>Pressures against the same label refrigerant</summary>
        {rows
          .filter(({ quantity }) => quantity !== "vent")
          .map((row) => (
            <Scales key={fairId(row)} id={fairId(row)} width={NARROW} row={row} page={page} />
          ))}
      </details>
      <FoldedTable
        summary="The numbers, as measured and in equal conditions"
        table={fairTable(rows, `${name} minus ${label}`, units)}
      />
      <DataTable {...standardTable(found, product, label, units)} />
    </div>
  );
}

const fairId = ({ product, condition, quantity, form }: FairRow): string =>
  `fair-${product}-${condition}-${quantity}-${form}`;

const Scales = ({
  row,
  page,
  ...place
}: {
  row: FairRow;
  page: Page;
  id: string;
  width: number;
}) => (
  <FairScales
    {...place}
    title={`${fairName(row)}, ${conditionNames[row.condition]}`}
    row={row}
    shown={fairShown(row, page.units)}
  />
);
