import type { Option } from "../forms/spec.ts";

interface Props {
  readonly id: string;
  readonly options: readonly Option[];
  readonly value: string;
  readonly empty: string;
  readonly describedBy?: string | undefined;
  readonly invalid?: boolean;
  readonly onChange: (value: string) => void;
}

/** A list to pick one from. */
export function Pick({ id, options, value, empty, describedBy, invalid, onChange }: Props) {
  return (
    <select
      id={id}
      class="pick"
      value={value}
      aria-invalid={invalid === true}
      aria-describedby={describedBy}
      onChange={(event) => {
        onChange(event.currentTarget.value);
      }}
    >
      <option value="" selected={value === ""}>
        {empty}
      </option>
      {options.map((option) => (
        <option key={option.value} value={option.value} selected={option.value === value}>
          {option.label}
        </option>
      ))}
    </select>
  );
}
