import {
  type Inspection,
  quantityDimension,
  quantityNames,
  readingQuantities,
  type ReadingQuantity,
} from "../../trial/index.ts";
import { unitsOf } from "../../units/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { instrumentsFor } from "../readings/instruments.ts";
import type { Draft } from "../shell/drafts.ts";
import { view } from "../shell/log-keeper.ts";
import { columnInstrument, columnUnit } from "./mapping.ts";

interface Props {
  readonly inspection: Inspection;
  readonly heading: string;
  readonly index: number;
  readonly draft: Draft;
  readonly change: (part: Draft) => void;
}

/** What one column is, in which unit, read by which instrument. */
export function ColumnMapping({ inspection, heading, index, draft, change }: Props) {
  const quantity = draft[`${index}.quantity`] as ReadingQuantity | "" | undefined;
  const used = quantity !== undefined && quantity !== "";
  const doubt = inspection.columns.find(({ column }) => column === heading)?.doubt;
  const id = `column-${index}`;
  return (
    <fieldset class={used ? "column" : "column is-unused"}>
      <legend>{heading}</legend>
      <FieldFrame id={id} label="It is">
        <Pick
          id={id}
          options={readingQuantities.map((one) => ({ value: one, label: quantityNames[one] }))}
          value={quantity ?? ""}
          empty="Not used"
          onChange={(value) => {
            change({ [`${index}.quantity`]: value });
          }}
        />
      </FieldFrame>
      {used && (
        <FieldFrame id={`${id}-unit`} label="Unit">
          <Pick
            id={`${id}-unit`}
            options={unitsOf(quantityDimension[quantity]).map((unit) => ({
              value: unit.id,
              label: `${unit.label} (${unit.name})`,
            }))}
            value={columnUnit(draft, index, quantity)}
            empty="Choose"
            onChange={(unit) => {
              change({ [`${index}.unit`]: unit });
            }}
          />
        </FieldFrame>
      )}
      {used && <Instrument {...{ id, index, quantity, draft, change }} />}
      {used && doubt !== undefined && <p class="column-doubt">Check: {doubt}.</p>}
    </fieldset>
  );
}

interface InstrumentProps {
  readonly id: string;
  readonly index: number;
  readonly quantity: ReadingQuantity;
  readonly draft: Draft;
  readonly change: (part: Draft) => void;
}

function Instrument({ id, index, quantity, draft, change }: InstrumentProps) {
  const dimension = quantityDimension[quantity];
  const fitting = instrumentsFor(view.value, { quantity, dimension });
  if (fitting.length === 0) return null;
  return (
    <FieldFrame id={`${id}-instrument`} label="Instrument">
      <Pick
        id={`${id}-instrument`}
        options={fitting.map((one) => ({ value: one.id, label: one.name }))}
        value={columnInstrument(view.value, draft, index, quantity)}
        empty="Not named"
        onChange={(instrument) => {
          change({ [`${index}.instrument`]: instrument });
        }}
      />
    </FieldFrame>
  );
}
