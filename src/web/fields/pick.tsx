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

/** A list to pick one from; what stands already is in it, even if nobody would offer it now. */
export function Pick({ id, options, value, empty, describedBy, invalid, onChange }: Props) {
  const known = value === "" || options.some((option) => option.value === value);
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
      {!known && (
        <option value={value} selected>
          {value}
        </option>
      )}
      {grouped(options).map(({ group, members }) =>
        group === undefined ? (
          <Choices options={members} value={value} />
        ) : (
          <optgroup key={group} label={group}>
            <Choices options={members} value={value} />
          </optgroup>
        ),
      )}
    </select>
  );
}

const Choices = ({ options, value }: { options: readonly Option[]; value: string }) => (
  <>
    {options.map((option) => (
      <option key={option.value} value={option.value} selected={option.value === value}>
        {option.label}
      </option>
    ))}
  </>
);

interface Group {
  readonly group: string | undefined;
  readonly members: readonly Option[];
}

/** Neighbours that name the same group, together. */
const grouped = (options: readonly Option[]): readonly Group[] =>
  [...new Set(options.map(({ group }) => group))].map((group) => ({
    group,
    members: options.filter((option) => option.group === group),
  }));
