import { blendNames, fluidNames } from "../../calculations/index.ts";
import { OWN } from "./chosen.ts";

interface PickProps {
  readonly id: string;
  readonly value: string;
  readonly empty?: string;
  /** Offers a composition typed by hand. */
  readonly own?: boolean;
  /** Offers a mixture without a name of its own, by its parts. */
  readonly identified?: string | undefined;
  readonly without?: readonly string[];
  readonly blends?: boolean;
  readonly label?: string;
  readonly onChange: (name: string) => void;
}

/** The list of all names. */
export function SubstancePick(props: PickProps) {
  const { id, value, empty, own, identified, without = [], blends = true, label, onChange } = props;
  const option = (name: string) => (
    <option key={name} value={name} selected={name === value}>
      {name}
    </option>
  );
  const offered = (names: readonly string[]) => names.filter((name) => !without.includes(name));
  return (
    <select
      id={id}
      class="pick"
      aria-label={label}
      value={value}
      onChange={(event) => {
        onChange(event.currentTarget.value);
      }}
    >
      {empty !== undefined && (
        <option value="" selected={value === ""}>
          {empty}
        </option>
      )}
      {own === true && (
        <option value={OWN} selected={value === OWN}>
          A composition of my own
        </option>
      )}
      {identified !== undefined && <optgroup label="As identified">{option(identified)}</optgroup>}
      {blends && (
        <optgroup label="Blends">
          {offered(blendNames.map(({ name }) => name)).map(option)}
        </optgroup>
      )}
      <optgroup label="Pure fluids">{offered(fluidNames).map(option)}</optgroup>
    </select>
  );
}
