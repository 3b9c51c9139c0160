import { type Dimension, unitsOf } from "../../units/index.ts";

interface Props {
  readonly id: string;
  /** Said by a screen reader for the unit list: the field's own label. */
  readonly label: string;
  readonly text: string;
  readonly unit: string;
  readonly dimensions: readonly Dimension[];
  readonly large?: boolean;
  /** May be below zero: many decimal keypads have no minus key. */
  readonly signed?: boolean;
  readonly describedBy?: string | undefined;
  readonly invalid?: boolean;
  readonly onText: (text: string) => void;
  readonly onUnit: (unit: string) => void;
}

/**
 * A number and its unit. Text with a decimal keypad: comma and point both pass, minus too, and a unit
 * may be typed behind the number ("5 lb 3 oz").
 */
export function QuantityInput(props: Props) {
  const units = props.dimensions.flatMap((dimension) => unitsOf(dimension));
  const negative = props.text.trim().startsWith("-") || props.text.trim().startsWith("−");
  const flip = (): void => {
    props.onText(negative ? props.text.trim().slice(1) : `-${props.text.trim()}`);
  };
  return (
    <div class={props.large === true ? "quantity quantity-large" : "quantity"}>
      {props.signed === true && (
        <button
          type="button"
          class="sign"
          aria-pressed={negative}
          aria-label={`${props.label}: minus sign`}
          onClick={flip}
        >
          ±
        </button>
      )}
      <input
        id={props.id}
        class="quantity-number"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        value={props.text}
        aria-invalid={props.invalid === true}
        aria-describedby={props.describedBy}
        onInput={(event) => {
          props.onText(event.currentTarget.value);
        }}
      />
      <select
        class="quantity-unit"
        aria-label={`${props.label}: unit`}
        value={props.unit}
        onChange={(event) => {
          props.onUnit(event.currentTarget.value);
        }}
      >
        {units.map((unit) => (
          <option key={unit.id} value={unit.id} selected={unit.id === props.unit} title={unit.name}>
            {unit.label === "" ? unit.name : unit.label}
          </option>
        ))}
      </select>
    </div>
  );
}
