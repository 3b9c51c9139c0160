import type { ReadingPrompt } from "../../trial/index.ts";
import { describedBy, FieldFrame } from "../fields/field-frame.tsx";
import { QuantityInput } from "../fields/quantity-input.tsx";
import type { Typed } from "./reading-draft.ts";

interface Props {
  readonly id: string;
  readonly label: string;
  /** The page’s own heading says it already. */
  readonly quietLabel?: boolean;
  readonly prompt: ReadingPrompt;
  readonly text: string;
  readonly unit: string;
  readonly typed: Typed;
  readonly issue?: string | undefined;
  readonly onText: (text: string) => void;
  readonly onUnit: (unit: string) => void;
}

/** A vacuum in the low side and a frosty vent read below zero; masses and speeds do not. */
const canBeNegative = ({ dimension, quantity }: ReadingPrompt): boolean =>
  dimension === "temperature" || quantity === "low-side";

/** The one large field of a step. What cannot be read as a number is said once something stands there. */
export function LargeField(props: Props) {
  const { id, label, prompt, typed } = props;
  const unreadable = typed.kind === "invalid" && /\d/.test(props.text) ? typed.accepted : undefined;
  const issue = props.issue ?? unreadable;
  return (
    <FieldFrame id={id} label={label} hidden={props.quietLabel === true} issue={issue}>
      <QuantityInput
        id={id}
        label={label}
        text={props.text}
        unit={props.unit}
        dimensions={[prompt.dimension]}
        large
        signed={canBeNegative(prompt)}
        invalid={issue !== undefined}
        describedBy={describedBy(id, undefined, issue)}
        onText={props.onText}
        onUnit={props.onUnit}
      />
    </FieldFrame>
  );
}
