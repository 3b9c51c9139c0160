import type { Caution } from "../../trial/index.ts";

/** A caution where the hand is: what to mind, then why, then whence. */
export function CautionBox({ caution }: { readonly caution: Caution }) {
  return (
    <div class="caution">
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
        <path d="M12 3 22 21H2z" class="caution-shape" />
        <path d="M12 10v5M12 17.5v1" class="caution-bar" />
      </svg>
      <div>
        <p class="caution-text">{caution.text}</p>
        <details>
          <summary>Why</summary>
          <p>{caution.reason}</p>
          <p class="quiet">Source: {caution.source}</p>
        </details>
      </div>
    </div>
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
