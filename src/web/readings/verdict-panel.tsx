import { BandScale } from "../../report/index.ts";
import type { Verdict } from "../../trial/index.ts";

interface Props {
  readonly verdict: Verdict;
  /** Unit in which the reading was typed: the scale is drawn in it. */
  readonly unit: string;
  /** Pa, for gauge units. */
  readonly atmosphere: number;
  readonly title: string;
}

/** The reading against its band, the word for it, and what stands behind the word. */
export function VerdictPanel({ verdict, unit, atmosphere, title }: Props) {
  return (
    <section class={`verdict verdict-${verdict.kind}`} aria-label={`Verdict: ${title}`}>
      <BandScale verdict={verdict} unit={unit} atmosphere={atmosphere} title={title} />
      <p class="verdict-sentence">{verdict.sentence}</p>
      <p class="quiet">{verdict.basis}</p>
      {verdict.details.length > 0 && (
        <details class="verdict-details">
          <summary>What stands behind it</summary>
          <dl>
            {verdict.details.map((detail) => (
              <div key={detail.heading}>
                <dt>{detail.heading}</dt>
                <dd>{detail.text}</dd>
                <dd class="quiet">Source: {detail.source}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </section>
  );
}
