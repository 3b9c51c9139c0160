import type { Ledger, SubstanceKey } from "../../trial/index.ts";

/** How many fillings there are before they repeat. */
export const FILLINGS = 6;

/** Each substance gets a filling in order of first mention: hatch first, colour second. */
export function fillingsOf(ledger: Ledger): ReadonlyMap<SubstanceKey, number> {
  const keys = new Set([
    ...ledger.accounts.flatMap(({ contents }) => contents.map(({ substance }) => substance)),
    ...ledger.postings.flatMap(({ parts }) => parts.map(({ substance }) => substance)),
  ]);
  return new Map([...keys].map((key, i) => [key, i % FILLINGS]));
}

/** Lines drawn over a plain ground, 8 by 8; the first filling is plain. */
const strokes = [
  "",
  "M-2 2L2 -2M0 8L8 0M6 10L10 6",
  "M0 2H8M0 6H8",
  "M2 0V8M6 0V8",
  "M-2 2L2 -2M0 8L8 0M6 10L10 6M-2 6L2 10M0 0L8 8M6 -2L10 2",
  "M2 2h.01M6 6h.01",
] as const;

/** The fillings, defined once inside a drawing. Ids carry the drawing's own id, so that none is met twice. */
export const Fillings = ({ id }: { id: string }) => (
  <defs>
    {strokes.map((d, i) => (
      <pattern id={`${id}-fill-${i}`} width="8" height="8" patternUnits="userSpaceOnUse">
        <rect class={`pic-ground-${i}`} width="8" height="8" />
        {d !== "" && <path class={`pic-hatch pic-hatch-${i}`} d={d} />}
      </pattern>
    ))}
  </defs>
);

export const fillingUrl = (id: string, filling: number): string => `url(#${id}-fill-${filling})`;
