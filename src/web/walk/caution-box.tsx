import type { Caution } from "../../trial/index.ts";
import { CautionMark } from "./caution-mark.tsx";

/** A caution where the hand is: what to mind stands open; why, and whence, a tap away. */
export function CautionBox({ caution }: { readonly caution: Caution }) {
  return (
    <details class="caution">
      <summary>
        <CautionMark />
        <span class="caution-text">
          {caution.text} <span class="caution-why">Why</span>
        </span>
      </summary>
      <div class="caution-reason">
        <p>{caution.reason}</p>
        <p class="quiet">Source: {caution.source}</p>
      </div>
    </details>
  );
}

interface ListProps {
  readonly cautions: readonly Caution[];
}

export function Cautions({ cautions }: ListProps) {
  if (cautions.length === 0) return null;
  return (
    <section class="cautions" aria-label="Cautions">
      {cautions.map((caution) => (
        <CautionBox key={caution.id} caution={caution} />
      ))}
    </section>
  );
}
