import type { TrialView } from "../../trial/index.ts";
import { describedBy } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { QuantityInput } from "../fields/quantity-input.tsx";
import { Segments } from "../fields/segments.tsx";
import type { Draft } from "../shell/drafts.ts";
import { rememberUnit } from "../shell/preferences.ts";
import { unitKey, unitOf } from "./body.ts";
import { dimensionsOf, type FieldSpec, type Option, type QuantitySpec } from "./spec.ts";
import { fluidOptions, substanceOptions } from "./substances.ts";

interface Props {
  readonly form: string;
  readonly spec: FieldSpec;
  readonly draft: Draft;
  readonly view: TrialView;
  readonly issue?: string | undefined;
  readonly onChange: (change: Draft) => void;
  readonly id: string;
  readonly value: string;
  readonly change: (text: string) => void;
}

/** Up to so many choices lie open side by side; more wait in a list. */
const MOST_SEGMENTS = 4;

/** What is typed into or picked from, without its label. */
export function Control(props: Props) {
  const { spec, draft, view, id, value, change } = props;
  switch (spec.kind) {
    case "text":
      return <Text {...props} rows={spec.long === true ? 3 : 1} />;
    case "lines":
      return <Text {...props} rows={4} />;
    case "number":
      return <Figure {...props} suffix={spec.suffix} />;
    case "quantity":
      return <Measure {...props} spec={spec} />;
    case "choice":
      return spec.options.length <= MOST_SEGMENTS ? (
        <Segments
          name={id}
          label={spec.label}
          options={spec.options}
          value={value}
          onChange={change}
        />
      ) : (
        <List {...props} options={spec.options} empty="Choose" />
      );
    case "fluid":
      return <List {...props} options={fluidOptions()} empty={spec.none} />;
    case "pick": {
      const options = spec.options(view, draft);
      const unnamed = spec.optional === true ? "Not named" : "Choose";
      return (
        <List {...props} options={options} empty={options.length === 0 ? spec.none : unnamed} />
      );
    }
    case "substance":
      return <List {...props} options={substanceOptions(view)} empty="Choose" />;
    case "flag":
    case "when":
      return null;
  }
}

const shared = ({ id, spec, value, issue }: Props) => ({
  id,
  value,
  "aria-invalid": issue !== undefined,
  "aria-describedby": describedBy(id, spec.hint, issue),
});

function Text({ rows, ...props }: Props & { readonly rows: number }) {
  const onInput = (event: { currentTarget: { value: string } }): void => {
    props.change(event.currentTarget.value);
  };
  return rows > 1 ? (
    <textarea {...shared(props)} class="text" rows={rows} onInput={onInput} />
  ) : (
    <input {...shared(props)} class="text" type="text" autoComplete="off" onInput={onInput} />
  );
}

const Figure = ({ suffix, ...props }: Props & { readonly suffix: string | undefined }) => (
  <div class="quantity">
    <input
      {...shared(props)}
      class="quantity-number"
      type="text"
      inputMode="decimal"
      autoComplete="off"
      onInput={(event) => {
        props.change(event.currentTarget.value);
      }}
    />
    {suffix !== undefined && <span class="quantity-suffix">{suffix}</span>}
  </div>
);

const Measure = ({
  form,
  spec,
  draft,
  issue,
  ...props
}: Props & { readonly spec: QuantitySpec }) => (
  <QuantityInput
    id={props.id}
    label={spec.label}
    text={props.value}
    unit={unitOf(form, spec, draft)}
    dimensions={dimensionsOf(spec, draft)}
    signed={spec.signed === true}
    describedBy={describedBy(props.id, spec.hint, issue)}
    invalid={issue !== undefined}
    onText={props.change}
    onUnit={(unit) => {
      rememberUnit(unitKey(form, spec), unit);
      props.onChange({ [`${spec.name}.unit`]: unit });
    }}
  />
);

interface ListProps extends Props {
  readonly options: readonly Option[];
  readonly empty: string;
}

const List = ({ id, spec, value, issue, options, empty, change }: ListProps) => (
  <Pick
    id={id}
    options={options}
    value={value}
    empty={empty}
    describedBy={describedBy(id, spec.hint, issue)}
    invalid={issue !== undefined}
    onChange={change}
  />
);
