import type { StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";

interface Props {
  readonly stage: StageView;
  readonly title: string;
  readonly why?: string;
}

/** Where the step belongs, what it is, why it is worth the walk. */
export function StepHead({ stage, title, why }: Props) {
  const product = view.value.products.find(({ id }) => id === stage.round);
  return (
    <header class="step-head">
      <p class="eyebrow">
        {stage.title}
        {product && ` · ${product.name}`}
      </p>
      <h1 tabIndex={-1}>{title}</h1>
      {why !== undefined && <p class="why">{why}</p>}
    </header>
  );
}
