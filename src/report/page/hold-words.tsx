import type { HoldFinding } from "../../trial/index.ts";

const percent = (p: number): string =>
  p > 0.995 ? "over 99 %" : p < 0.005 ? "under 1 %" : `${(100 * p).toFixed(0)} %`;

const causes = [
  ["tight", "Tight"],
  ["wet", "Wet"],
  ["outgassing", "Outgassing"],
  ["leaking", "Leaking"],
] as const;

/** What a hold means: verdict, what to do, how probable the others are, what was assumed. */
export function HoldWords({ finding }: { readonly finding: HoldFinding }) {
  const { word, sentence, next, leak, assumed, caution, analysis } = finding;
  return (
    <div class="hold-words">
      <p>
        <strong>The hold: {word}.</strong> {sentence} {next}
      </p>
      <p>{leak}</p>
      <table class="table">
        <caption>How probable each meaning is</caption>
        <tbody>
          {causes.map(([cause, name]) => (
            <tr key={cause}>
              <th scope="row">{name}</th>
              <td class="figure">{percent(analysis.probabilities[cause])}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="quiet">{[caution, ...assumed].join(" ")}</p>
    </div>
  );
}
