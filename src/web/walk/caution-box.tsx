import type { Caution } from "../../trial/index.ts";
import { CautionMark } from "./caution-mark.tsx";

/**
 * A caution where the hand is: its lead in a few words, then what to mind. On a phone the text of a mere
 * caution waits behind its lead; a danger's stands open. Why, and whence, are a tap away everywhere.
 */
function CautionRow({ caution, whole }: { readonly caution: Caution; readonly whole: boolean }) {
  return (
    <details class={whole ? "caution is-whole" : "caution"}>
      <summary>
        <span class="caution-words">
          <strong>{caution.lead}</strong> <span class="caution-text">{caution.text}</span>
          {"\u00a0"}
          <span class="caution-why">Why</span>
        </span>
      </summary>
      <div class="caution-reason">
        <p>{caution.reason}</p>
        <p class="quiet">Source: {caution.source}</p>
      </div>
    </details>
  );
}

interface GroupProps {
  readonly severity: Caution["severity"];
  readonly cautions: readonly Caution[];
  readonly whole: boolean;
}

const words = { danger: "Danger", caution: "Caution" } as const;

function Group({ severity, cautions, whole }: GroupProps) {
  const those = cautions.filter((caution) => caution.severity === severity);
  if (those.length === 0) return null;
  return (
    <section class={`cautions cautions-${severity}`} aria-label={words[severity]}>
      <p class="caution-word">
        <CautionMark severity={severity} /> {words[severity]}
      </p>
      {those.map((caution) => (
        <CautionRow key={caution.id} caution={caution} whole={whole} />
      ))}
    </section>
  );
}

interface Props {
  readonly cautions: readonly Caution[];
  /** Every text stands open: they are there to be read through. */
  readonly whole?: boolean;
}

/** Dangers first; word and shape tell them from cautions. */
export function Cautions({ cautions, whole = false }: Props) {
  return (
    <>
      <Group severity="danger" cautions={cautions} whole />
      <Group severity="caution" cautions={cautions} whole={whole} />
    </>
  );
}
