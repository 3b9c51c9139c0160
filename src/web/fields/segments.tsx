import type { Option } from "../forms/spec.ts";

interface Props {
  readonly name: string;
  readonly label: string;
  readonly options: readonly Option[];
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** A few choices side by side or below each other: native radio buttons with a large face. */
export function Segments({ name, label, options, value, onChange }: Props) {
  return (
    <div
      class={options.length === 4 ? "segments segments-four" : "segments"}
      id={name}
      role="radiogroup"
      aria-label={label}
    >
      {options.map((option) => (
        <label key={option.value} class={option.value === value ? "segment is-on" : "segment"}>
          <input
            type="radio"
            name={name}
            value={option.value}
            checked={option.value === value}
            onChange={() => {
              onChange(option.value);
            }}
          />
          <span>
            {option.label}
            {option.hint !== undefined && <small>{option.hint}</small>}
          </span>
        </label>
      ))}
    </div>
  );
}
