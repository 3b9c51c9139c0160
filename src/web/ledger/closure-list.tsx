import { BandScale, COVERAGE_95, shownIn } from "../../report/index.ts";
import type { Closure, Ledger } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { Fit } from "../look/fit.tsx";

interface Props {
  readonly ledger: Ledger;
}

const words: Readonly<Record<Closure["grade"], string>> = {
  closes: "closes",
  doubtful: "doubtful",
  "does-not-close": "does not close",
};

const kindOf = ({ grade, residual }: Closure) =>
  grade === "closes" ? "within" : residual > 0 ? "higher" : "lower";

/** Each place where two statements about one mass meet, as a difference against its 95 % band. */
export function ClosureList({ ledger }: Props) {
  if (ledger.closures.length === 0) {
    return (
      <p class="empty">
        Nothing to compare yet. Weigh both sides of a transfer, or a vessel that was found empty.
      </p>
    );
  }
  return (
    <ul class="closures">
      {ledger.closures.map((closure, i) => (
        <li key={`${closure.entry} ${closure.kind}`}>
          <Fit>
            {(width) => (
              <BandScale
                id={`closure-${i}`}
                title={nameOf(ledger, closure)}
                shown={shownIn("g")}
                {...(closure.u > 0 && { band: bandOf(closure) })}
                reading={{ value: closure.residual, u: 0 }}
                readingText={shownIn("g").text(closure.residual, closure.u)}
                verdict={{ kind: kindOf(closure), word: words[closure.grade] }}
                bandName="95 % of the scales"
                compact
                width={width}
              />
            )}
          </Fit>
          <p>{closure.sentence}</p>
          <p class="quiet">
            {spokenInstant(closure.when)}
            {closure.declared && " · rests on a declaration, not on a scale"}
          </p>
        </li>
      ))}
    </ul>
  );
}

const bandOf = ({ u }: Closure) => ({ from: -COVERAGE_95 * u, to: COVERAGE_95 * u, expected: 0 });

const nameOf = ({ accounts }: Ledger, { account }: Closure): string =>
  accounts.find(({ id }) => id === account)?.name ?? account;
