import { useId } from "preact/hooks";
import {
  conditionNames,
  DataTable,
  DriftScale,
  driftVerdict,
  FairChart,
  fairChartTable,
  fairKind,
  fairName,
  FairScales,
  fairSentence,
  fairShown,
  fairTable,
  FoldedTable,
  lumpTable,
  standardTable,
  unitChoice,
  ventPicture,
  VerdictWord,
} from "../../report/index.ts";
import type { FairComparison, FairRow, TrialView } from "../../trial/index.ts";
import { useFair } from "../engine/use-fair.ts";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { PictureSheet } from "../pictures/picture-sheet.tsx";
import { SavePicture } from "../pictures/save-picture.tsx";
import { VerdictCounts } from "../readings/verdict-counts.tsx";
import { events, view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";

type Compared = FairComparison & { readonly kind: "compared" };

/** Products against the label refrigerant as if the days had been alike; it takes a moment and can be stopped. */
export function FairBoard() {
  const { state, stop, again } = useFair(events.value);
  switch (state.kind) {
    case "working":
      return <Working share={state.share} stop={stop} />;
    case "stopped":
      return (
        <section class="sheet">
          <h2>In equal conditions</h2>
          <p>Stopped before it was done.</p>
          <button type="button" class="button" onClick={again}>
            Compute again
          </button>
        </section>
      );
    case "failed":
      return (
        <section class="sheet">
          <h2>In equal conditions</h2>
          <p>This device could not compute it. Open the page again, or use the report.</p>
        </section>
      );
    case "found":
      return <Found found={state.found} view={view.value} />;
  }
}

const Working = ({ share, stop }: { share: number; stop: () => void }) => (
  <section class="sheet" aria-busy="true">
    <h2>In equal conditions</h2>
    <p role="status">
      Fitting the model to this vehicle’s runs on its label refrigerant and carrying the runs to
      equal conditions.
    </p>
    <progress class="fair-progress" max={1} value={share} aria-label="Share that is done" />
    <button type="button" class="button" onClick={stop}>
      Stop
    </button>
  </section>
);

function Found({ found, view: seen }: { found: FairComparison; view: TrialView }) {
  if (found.kind === "none") {
    return (
      <section class="sheet">
        <h2>In equal conditions</h2>
        <p class="empty">This cannot be said yet. {found.why}</p>
      </section>
    );
  }
  const products = [...new Set(found.rows.map(({ product }) => product))];
  return (
    <>
      <Vents found={found} view={seen} />
      {products.map((product) => (
        <ProductSheet key={product} product={product} found={found} view={seen} />
      ))}
      <DriftSheet found={found} view={seen} />
      <Fold level={2} title="What this rests on" said="The fitted model, and what was assumed">
        <ul class="fair-assumptions">
          {found.assumptions.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
        <FoldedTable summary="The fitted model" table={lumpTable(found)} />
      </Fold>
    </>
  );
}

const NOTE =
  "Coldproof. Runs carried to equal conditions by a model fitted to this vehicle on its label refrigerant. Hollow diamond: as measured; filled mark: in equal conditions; whiskers: 95 %.";

function Vents({ found, view: seen }: Pick<SheetProps, "found" | "view">) {
  const id = `vents${useId()}`;
  const units = unitChoice(seen, preferences.value.system);
  const nameOf = (product: string): string =>
    seen.products.find((one) => one.id === product)?.name ?? "product";
  const picture = ventPicture(found, nameOf, units);
  if (picture.rows.length === 0) return null;
  return (
    <section class="sheet">
      <h2>All products in equal conditions</h2>
      <PictureSheet
        title={picture.title}
        note={NOTE}
        table={fairChartTable({ ...picture, id, width: 0 })}
        draw={(width) => <FairChart {...picture} id={id} width={width} />}
      />
    </section>
  );
}

/** What moved on the label refrigerant alone, as pictures to keep. */
function DriftSheet({ found, view: seen }: Pick<SheetProps, "found" | "view">) {
  const id = `drift${useId()}`;
  const units = unitChoice(seen, preferences.value.system);
  const rows = found.drift.filter(({ quantity }) => quantity === "vent");
  if (rows.length === 0) return null;
  return (
    <Fold
      level={2}
      title="The vehicle itself, after minus before"
      said={
        <VerdictCounts
          judged={rows.map((row) => ({
            title: conditionNames[row.condition],
            ...driftVerdict(row, found.margin.margins[row.quantity]),
          }))}
        />
      }
    >
      {rows.map((row) => {
        const shown = fairShown(row, units);
        const title = `${fairName(row)} on the label refrigerant, ${conditionNames[row.condition]}`;
        const margin = found.margin.margins[row.quantity];
        return (
          <PictureSheet
            key={row.condition}
            title={title}
            note={NOTE}
            table={{
              caption: title,
              head: ["Drift", "Margin"],
              rows: [[shown.pair(row.drift), shown.text(margin)]],
            }}
            draw={(width) => (
              <DriftScale id={`${id}-${row.condition}`} {...{ title, row, margin, shown, width }} />
            )}
          />
        );
      })}
    </Fold>
  );
}

interface SheetProps {
  readonly product: string;
  readonly found: Compared;
  readonly view: TrialView;
}

function ProductSheet({ product, found, view: seen }: SheetProps) {
  const units = unitChoice(seen, preferences.value.system);
  const name = seen.products.find(({ id }) => id === product)?.name ?? "product";
  const label = seen.vehicle?.labelRefrigerant ?? "label refrigerant";
  const rows = found.rows.filter((row) => row.product === product);
  const vents = rows.filter(({ quantity }) => quantity === "vent");
  const pressures = rows.filter(({ quantity }) => quantity !== "vent");
  return (
    <section class="sheet">
      <h2>
        {name} against {label}, in equal conditions
      </h2>
      {vents.map((row) => (
        <p key={`${row.condition} ${row.form}`}>
          <VerdictWord kind={fairKind(row.verdict)} word={row.verdict} />{" "}
          {fairSentence(row, label, units)}
        </p>
      ))}
      <div>
        {vents.length > 0 && (
          <Fold row open={false} title="Vent air, drawn">
            {vents.map((row) => (
              <Row key={`${row.condition} ${row.form}`} {...{ row, name, view: seen }} />
            ))}
          </Fold>
        )}
        {pressures.length > 0 && (
          <Fold row open={false} title={`Pressures against ${label}`}>
            {pressures.map((row) => (
              <Row
                key={`${row.condition} ${row.quantity} ${row.form}`}
                {...{ row, name, view: seen }}
              />
            ))}
          </Fold>
        )}
        <Fold row open={false} title="The numbers">
          <DataTable {...fairTable(rows, `${name} minus ${label}`, units)} />
          <DataTable {...standardTable(found, product, label, units)} />
        </Fold>
      </div>
    </section>
  );
}

function Row({ row, name, view: seen }: { row: FairRow; name: string; view: TrialView }) {
  const id = `fair${useId()}`;
  const shown = fairShown(row, unitChoice(seen, preferences.value.system));
  const title = `${fairName(row)}, ${conditionNames[row.condition]}`;
  const rows = [{ name: `${name}: ${row.verdict}`, row }];
  const label = seen.vehicle?.labelRefrigerant ?? "the label refrigerant";
  return (
    <>
      <Fit>
        {(width) => <FairScales id={id} title={title} row={row} shown={shown} width={width} />}
      </Fit>
      <SavePicture
        picture={{
          title: `${title}: ${name} against ${label}`,
          note: NOTE,
          draw: (width) => <FairChart {...{ id, title, rows, shown, width }} />,
        }}
      />
    </>
  );
}
