import type { Answer } from "../../calculations/index.ts";
import type { Dimension } from "../../units/index.ts";
import { describedBy, FieldFrame } from "../fields/field-frame.tsx";
import { QuantityInput } from "../fields/quantity-input.tsx";
import { rememberUnit, unitFor } from "../shell/preferences.ts";
import { changeFluidDraft, fluidField } from "./fluid-draft.ts";

export interface QuantitySpec {
  readonly name: string;
  readonly label: string;
  readonly dimension: Dimension;
  readonly usual: { readonly us: string; readonly si: string };
  readonly initial?: string;
}

interface Props {
  readonly spec: QuantitySpec;
  readonly hint?: string;
  readonly optional?: boolean;
  readonly issue?: string | undefined;
}

const unitKey = ({ name }: QuantitySpec): string => `fluids ${name}`;

export const unitOfSpec = (spec: QuantitySpec): string => unitFor(unitKey(spec), spec.usual);

/** What stands in a field, with its unit, as calculations read it; undefined while it is empty. */
export function typedQuantity(spec: QuantitySpec): string | undefined {
  const text = fluidField(spec.name, spec.initial).trim();
  if (text === "") return undefined;
  // A unit typed behind the number counts before the one beside the field.
  return /[a-z°µ"%]/i.test(text) ? text : `${text} ${unitOfSpec(spec)}`;
}

/** A quantity of this page. */
export function FluidQuantity({ spec, hint, optional, issue }: Props) {
  const id = `fluids-${spec.name}`;
  return (
    <FieldFrame id={id} label={spec.label} hint={hint} optional={optional} issue={issue}>
      <QuantityInput
        id={id}
        label={spec.label}
        text={fluidField(spec.name, spec.initial)}
        unit={unitOfSpec(spec)}
        dimensions={[spec.dimension]}
        describedBy={describedBy(id, hint, issue)}
        invalid={issue !== undefined}
        onText={(text) => {
          changeFluidDraft({ [spec.name]: text });
        }}
        onUnit={(unit) => {
          rememberUnit(unitKey(spec), unit);
        }}
      />
    </FieldFrame>
  );
}

/** What an answer objects to in one of its fields. */
export function issueOf(answer: Answer | undefined, ...fields: readonly string[]) {
  if (answer?.kind !== "invalid") return undefined;
  return answer.issues.find(({ field }) => fields.some((name) => field.startsWith(name)))?.accepted;
}
