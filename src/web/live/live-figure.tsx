import { type Shown, shortNames } from "../../report/index.ts";
import { isSettled, isWaitedFor, type Standing, standingWords } from "./standing.ts";

interface Props {
  readonly standing: Standing;
  readonly shown: Shown;
}

/** One quantity, readable from across the bay: its value, and what it does in a word with a shape. */
export function LiveFigure({ standing, shown }: Props) {
  const { series, outlook } = standing;
  const settled = isSettled(standing);
  const { word, sentence } = standingWords(standing, shown);
  return (
    <li class={settled ? "live-figure is-settled" : "live-figure"}>
      <p class="live-name">{shortNames[series.quantity]}</p>
      <p class="live-value figure">{shown.text(outlook.now)}</p>
      {isWaitedFor(standing) && (
        <p class="live-words">
          <svg viewBox="0 0 16 16" width="18" height="18" aria-hidden="true">
            {settled ? <path d="M2 8.5 6.5 13 14 4" /> : <path d="M2 8h9M8 4l4 4-4 4" />}
          </svg>
          <span>
            <strong>{isSettled(standing) ? word : `${word}.`}</strong>{" "}
            <span class="figure">{sentence}</span>
          </span>
        </p>
      )}
    </li>
  );
}
