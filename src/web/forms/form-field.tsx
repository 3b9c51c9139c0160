import type { TrialView } from "../../trial/index.ts";
import { FieldFrame } from "../fields/field-frame.tsx";
import { WhenField } from "../fields/when-field.tsx";
import type { Draft } from "../shell/drafts.ts";
import { Control } from "./control.tsx";
import { type FieldSpec, initialOf } from "./spec.ts";

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
  if (spec.kind === "flag") return <Flag id={id} spec={spec} value={value} change={change} />;
  return (
    <FieldFrame id={id} label={spec.label} hint={spec.hint} optional={spec.optional} issue={issue}>
      <Control {...props} id={id} value={value} change={change} />
    </FieldFrame>
  );
}

interface FlagProps {
  readonly id: string;
  readonly spec: FieldSpec;
  readonly value: string;
  readonly change: (text: string) => void;
}

const Flag = ({ id, spec, value, change }: FlagProps) => (
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
