import { claimFindings, type StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { ReadAs } from "./read-as.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly product: string;
  /** Its place in the product's list. */
  readonly place: number;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

/** One sentence of a product's label, and how a person reads it. */
export function ClaimStep({ product, place, ...act }: Props) {
  const claim = claimFindings(view.value).find((one) => one.product === product)?.claims[place];
  if (claim) return <ReadAs {...act} claim={claim} />;
  return (
    <>
      <p>This claim is no longer in the list. Go back and choose again.</p>
      <button type="button" class="button" onClick={act.onCancel}>
        Back to the stage
      </button>
    </>
  );
}
