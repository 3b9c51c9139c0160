import { siUnit } from "../../units/index.ts";
import { quantityDimension } from "../dimensions.ts";
import type { ReadingQuantity, Substance } from "../events.ts";
import { lostAccount, type Posting, unaccountedAccount, vehicleAccount } from "../ledger/view.ts";
import type { StoredEvent, ReadingView, RunValue, RunView, TrialView } from "../view.ts";
import { logColumns, logTable } from "./log-table.ts";
import { type Column, plainText, sheetText } from "./sheet.ts";

/** A file of an export: its name and its text. */
export interface TableFile {
  readonly name: string;
  readonly text: string;
}

interface Table<Row> {
  readonly name: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
}

/**
 * A trial as tables: the log, which can be read in again, what follows from it, and a dictionary of every
 * column. SI; `u` is a standard uncertainty.
 */
export function dataTables(view: TrialView, events: readonly StoredEvent[]): readonly TableFile[] {
  const tables = [readingsOf(view), runValuesOf(view), movesOf(view)];
  const dictionary = [
    ...logColumns.map(({ name, says }) => ({ table: "log.csv", name, says })),
    ...tables.flatMap(({ name: table, columns }) =>
      columns.map(({ name, says }) => ({ table, name, says })),
    ),
  ];
  return [
    { name: "log.csv", text: logTable(events) },
    ...tables.map(({ name, text }) => ({ name, text })),
    { name: "dictionary.csv", text: sheetText(dictionaryColumns, dictionary) },
  ];
}

const dictionaryColumns: readonly Column<{ table: string; name: string; says: string }>[] = [
  { name: "table", says: "File.", of: ({ table }) => table },
  { name: "column", says: "Column of it.", of: ({ name }) => name },
  { name: "meaning", says: "What it holds.", of: ({ says }) => says },
];

const finished = <Row>({ name, columns, rows }: Table<Row>) => ({
  name,
  columns: columns.map((column) => ({ name: column.name, says: column.says })),
  text: sheetText(columns, rows),
});

const nameOf = (list: readonly { readonly id: string; readonly name: string }[], id?: string) =>
  plainText(list.find((one) => one.id === id)?.name);

const siOf = (quantity: ReadingQuantity): string => siUnit(quantityDimension[quantity]);

function readingsOf({ readings, products, runs, vessels, instruments }: TrialView) {
  return finished<ReadingView>({
    name: "readings.csv",
    rows: readings,
    columns: [
      { name: "entry", says: "Id of its entry in the log.", of: ({ id }) => id },
      { name: "when", says: "When it was read, ISO 8601.", of: ({ when }) => when },
      { name: "stage", says: "Stage of the trial.", of: ({ stage }) => stage },
      {
        name: "product",
        says: "Product of the round; empty outside of rounds.",
        of: ({ round }) => nameOf(products, round),
      },
      { name: "run", says: "Run it belongs to, if any.", of: ({ run }) => nameOf(runs, run) },
      {
        name: "vessel",
        says: "Vessel it is about, if any.",
        of: ({ vessel }) => (vessel === vehicleAccount ? "vehicle" : nameOf(vessels, vessel)),
      },
      { name: "quantity", says: "What was read.", of: ({ quantity }) => quantity },
      { name: "form", says: "steady, or an end of a swing.", of: ({ form }) => form },
      { name: "typed_value", says: "As it was typed.", of: ({ typed }) => typed.value },
      { name: "typed_unit", says: "Unit as it was typed.", of: ({ typed }) => typed.unit },
      { name: "value", says: "In SI; pressures absolute.", of: ({ value }) => value },
      { name: "unit", says: "SI unit of value and u.", of: ({ quantity }) => siOf(quantity) },
      {
        name: "u",
        says: "Standard uncertainty of the instrument; empty when none was named.",
        of: ({ u }) => u,
      },
      {
        name: "instrument",
        says: "Instrument, if named.",
        of: ({ instrument }) => nameOf(instruments, instrument),
      },
      { name: "place", says: "Where it was read.", of: ({ place }) => plainText(place) },
      { name: "note", says: "Remark.", of: ({ note }) => plainText(note) },
    ],
  });
}

const substanceName = ({ products }: TrialView, substance: Substance): string | undefined =>
  substance.kind === "fluid" ? substance.fluid : nameOf(products, substance.product);

function runValuesOf(view: TrialView) {
  const rows = view.runs.flatMap((run) => run.values.map((value) => ({ run, value })));
  return finished<{ run: RunView; value: RunValue }>({
    name: "runs.csv",
    rows,
    columns: [
      { name: "entry", says: "Id of the run's entry in the log.", of: ({ run }) => run.id },
      { name: "run", says: "Name of the run.", of: ({ run }) => plainText(run.name) },
      { name: "stage", says: "Stage of the trial.", of: ({ run }) => run.stage },
      {
        name: "condition",
        says: "How the vehicle stood or drove.",
        of: ({ run }) => run.condition,
      },
      {
        name: "charged",
        says: "Fluid or product in the vehicle.",
        of: ({ run }) => substanceName(view, run.charged),
      },
      { name: "quantity", says: "What the figure is.", of: ({ value }) => value.quantity },
      { name: "form", says: "steady, or an end of a swing.", of: ({ value }) => value.form },
      { name: "value", says: "In SI; pressures absolute.", of: ({ value }) => value.value },
      { name: "unit", says: "SI unit.", of: ({ value }) => siOf(value.quantity) },
      {
        name: "u",
        says: "Combined standard uncertainty: scatter and instrument.",
        of: ({ value }) => value.u,
      },
      {
        name: "u_repeatability",
        says: "Standard uncertainty of scatter and drift alone.",
        of: ({ value }) => value.uRepeatability,
      },
      {
        name: "standing",
        says: "settled, cycling or still-moving by the trace; typed by a person.",
        of: ({ value }) => value.standing,
      },
    ],
  });
}

function movesOf(view: TrialView) {
  const account = (id: string): string | undefined => {
    if (id === vehicleAccount) return "vehicle";
    if (id === lostAccount) return "lost";
    return id === unaccountedAccount ? "unaccounted" : nameOf(view.vessels, id);
  };
  return finished<Posting>({
    name: "masses.csv",
    rows: view.ledger.postings,
    columns: [
      { name: "entry", says: "Id of its entry in the log.", of: ({ entry }) => entry },
      { name: "when", says: "When it moved, ISO 8601.", of: ({ when }) => when },
      { name: "from", says: "Vessel it left.", of: ({ from }) => account(from) },
      {
        name: "to",
        says: "Vessel it reached, or lost, or unaccounted.",
        of: ({ to }) => account(to),
      },
      { name: "mass", says: "kg.", of: ({ mass }) => mass.value },
      { name: "u", says: "Its standard uncertainty, kg.", of: ({ mass }) => mass.u },
      { name: "leg", says: "moved, purged on the way, or found empty.", of: ({ leg }) => leg },
      { name: "evidence", says: "What the mass rests on.", of: ({ evidence }) => evidence },
      {
        name: "substance",
        says: "What it was, in mass order.",
        of: ({ parts }) => plainText(parts.map(({ name }) => name).join(" + ")),
      },
    ],
  });
}
