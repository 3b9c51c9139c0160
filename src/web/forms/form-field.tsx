import type { TrialView } from "../../trial/index.ts";
import { describedBy, FieldFrame } from "../fields/field-frame.tsx";
import { Pick } from "../fields/pick.tsx";
import { QuantityInput } from "../fields/quantity-input.tsx";
import { Segments } from "../fields/segments.tsx";
import { WhenField } from "../fields/when-field.tsx";
import type { Draft } from "../shell/drafts.ts";
import { rememberUnit } from "../shell/preferences.ts";
import { unitKey, unitOf } from "./body.ts";
import { dimensionsOf, type FieldSpec, initialOf } from "./spec.ts";
import { substanceOptions } from "./substances.ts";

interface Props {
  readonly form: string;
  readonly spec: FieldSpec;
  readonly draft: Draft;
  readonly view: TrialView;
  readonly issue?: string | undefined;
  readonly onChange: (change: Draft) => void;
}

/** The id of a field in the page, so that an objection can jump to it. */
export const fieldId = (form: string, name: string): string =>
  `f-${form}-${name}`.replace(/[^\w-]/g, "-");

/** One field as its spec says. */
export function FormField(props: Props) {
  const { form, spec, draft, issue, onChange } = props;
  const id = fieldId(form, spec.name);
  const value = draft[spec.name] ?? initialOf(spec);
  const change = (text: string): void => {
    onChange({ [spec.name]: text });
  };
  if (spec.kind === "when") return <WhenField id={id} text={value} issue={issue} onText={change} />;
  if (spec.kind === "flag") {
    return (
      <label class="check" for={id}>
        <input
          id={id}
          type="checkbox"
          checked={value === "yes"}
          onChange={(event) => {
            change(event.currentTarget.checked ? "yes" : "");
          }}
        />
        <span>
          {spec.label}
          {spec.hint !== undefined && <small>{spec.hint}</small>}
        </span>
      </label>
    );
  }
  return (
    <FieldFrame id={id} label={spec.label} hint={spec.hint} optional={spec.optional} issue={issue}>
      <Control {...props} id={id} value={value} change={change} />
    </FieldFrame>
  );
}

interface ControlProps extends Props {
  readonly id: string;
  readonly value: string;
  readonly change: (text: string) => void;
}

function Control({ form, spec, draft, view, issue, id, value, change, onChange }: ControlProps) {
  const described = describedBy(id, spec.hint, issue);
  const shared = {
    id,
    value,
    "aria-invalid": issue !== undefined,
    "aria-describedby": described,
  };
  switch (spec.kind) {
    case "text":
      return spec.long === true ? (
        <textarea
          {...shared}
          class="text"
          rows={3}
          onInput={(e) => {
            change(e.currentTarget.value);
          }}
        />
      ) : (
        <>
          <input
            {...shared}
            class="text"
            type="text"
            autoComplete="off"
            list={spec.suggestions ? `${id}-list` : undefined}
            onInput={(e) => {
              change(e.currentTarget.value);
            }}
          />
          {spec.suggestions && (
            <datalist id={`${id}-list`}>
              {spec.suggestions.map((one) => (
                <option key={one} value={one} />
              ))}
            </datalist>
          )}
        </>
      );
    case "lines":
      return (
        <textarea
          {...shared}
          class="text"
          rows={4}
          onInput={(e) => {
            change(e.currentTarget.value);
          }}
        />
      );
    case "number":
      return (
        <div class="quantity">
          <input
            {...shared}
            class="quantity-number"
            type="text"
            inputMode="decimal"
            autoComplete="off"
            onInput={(e) => {
              change(e.currentTarget.value);
            }}
          />
          {spec.suffix !== undefined && <span class="quantity-suffix">{spec.suffix}</span>}
        </div>
      );
    case "quantity":
      return (
        <QuantityInput
          id={id}
          label={spec.label}
          text={value}
          unit={unitOf(form, spec, draft)}
          dimensions={dimensionsOf(spec, draft)}
          signed={spec.signed === true}
          describedBy={described}
          invalid={issue !== undefined}
          onText={change}
          onUnit={(unit) => {
            rememberUnit(unitKey(form, spec), unit);
            onChange({ [`${spec.name}.unit`]: unit });
          }}
        />
      );
    case "choice":
      return spec.options.length <= 4 ? (
        <Segments
          name={id}
          label={spec.label}
          options={spec.options}
          value={value}
          onChange={change}
        />
      ) : (
        <Pick
          id={id}
          options={spec.options}
          value={value}
          empty="Choose"
          describedBy={described}
          invalid={issue !== undefined}
          onChange={change}
        />
      );
    case "pick": {
      const options = spec.options(view, draft);
      const empty =
        options.length === 0 ? spec.none : spec.optional === true ? "Not named" : "Choose";
      return (
        <Pick
          id={id}
          options={options}
          value={value}
          empty={empty}
          describedBy={described}
          invalid={issue !== undefined}
          onChange={change}
        />
      );
    }
    case "substance":
      return (
        <Pick
          id={id}
          options={substanceOptions(view)}
          value={value}
          empty="Choose"
          describedBy={described}
          invalid={issue !== undefined}
          onChange={change}
        />
      );
    case "flag":
    case "when":
      return null;
  }
}
