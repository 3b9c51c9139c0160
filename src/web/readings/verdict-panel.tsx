import { useId } from "preact/hooks";
import { bandLook, BandScale, shownIn } from "../../report/index.ts";
import type { ReadingQuantity, Verdict } from "../../trial/index.ts";
import { formatQuantity, type Quantity } from "../../units/index.ts";
import { Fit } from "../look/fit.tsx";

interface Props {
  readonly verdict: Verdict;
  readonly typed: Quantity;
  /** Pa, for gauge units. */
  readonly atmosphere: number;
  readonly title: string;
  readonly quantity: ReadingQuantity;
  /** For lists: the scale and its word alone, the rest on demand. */
  readonly compact?: boolean;
}

/** The reading against its band, the word for it, and what stands behind the word. */
export function VerdictPanel({
  verdict,
  typed,
  atmosphere,
  title,
  quantity,
  compact = false,
}: Props) {
  const id = `band${useId()}`;
  return (
    <section class={`judgement judgement-${verdict.kind}`}>
      <Fit>
        {(width) => (
          <BandScale
            id={id}
            title={title}
            shown={shownIn(typed.unit, atmosphere)}
            {...(verdict.band && { band: verdict.band })}
            reading={verdict.reading}
            readingText={formatQuantity(typed)}
            verdict={verdict}
            {...bandLook(quantity)}
            compact={compact}
            width={width}
          />
        )}
      </Fit>
      <p class="judgement-sentence">{verdict.sentence}</p>
      <Behind verdict={verdict} />
    </section>
  );
}

function Behind({ verdict }: { readonly verdict: Verdict }) {
  return (
    <details class="behind">
      <summary>What stands behind it</summary>
      <p>{verdict.basis}</p>
      <dl>
        {verdict.details.map((detail) => (
          <div key={detail.heading}>
            <dt>{detail.heading}</dt>
            <dd>{detail.text}</dd>
            <dd class="quiet">Source: {detail.source}</dd>
          </div>
        ))}
      </dl>
      {verdict.details.length === 0 && <p class="quiet">Sources: {verdict.sources.join("; ")}</p>}
    </details>
  );
}
