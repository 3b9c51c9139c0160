import { BandScale, COVERAGE_95, shownIn, type VerdictKind } from "../../report/index.ts";
import type { Closure, Ledger } from "../../trial/index.ts";
import { spokenInstant } from "../forms/instant.ts";
import { Fit } from "../look/fit.tsx";
import { Fold } from "../look/fold.tsx";
import { VerdictCounts } from "../readings/verdict-counts.tsx";

interface Props {
  readonly ledger: Ledger;
}

const words: Readonly<Record<Closure["grade"], string>> = {
  closes: "closes",
  doubtful: "doubtful",
  "does-not-close": "does not close",
};

const kindOf = ({ grade, residual }: Closure): VerdictKind =>
  grade === "closes" ? "within" : residual > 0 ? "higher" : "lower";

/** Each place where two statements about one mass meet; those that close wait behind their number on a phone. */
export function ClosureList({ ledger }: Props) {
  const { closures } = ledger;
  const open = closures.filter(({ grade }) => grade !== "closes");
  const closed = closures.filter(({ grade }) => grade === "closes");
  if (closures.length === 0) {
    return (
      <p class="empty">
        Nothing to compare yet. Weigh both sides of a transfer, or a vessel that was found empty.
      </p>
    );
  }
  return (
    <>
      {open.length > 0 && <Places ledger={ledger} closures={open} />}
      {closed.length > 0 && (
        <Fold row title={closed.length === 1 ? "1 place closes" : `${closed.length} places close`}>
          <Places ledger={ledger} closures={closed} />
        </Fold>
      )}
    </>
  );
}

/** The same behind one title. */
export function ClosureFold({ ledger }: Props) {
  const judged = ledger.closures.map((closure) => ({
    title: nameOf(ledger, closure),
    kind: kindOf(closure),
    word: words[closure.grade],
  }));
  return (
    <Fold
      title="Does the ledger close?"
      {...(judged.length > 0 && { said: <VerdictCounts judged={judged} /> })}
    >
      <ClosureList ledger={ledger} />
    </Fold>
  );
}

interface PlacesProps extends Props {
  readonly closures: readonly Closure[];
}

/** Each as a difference against its 95 % band. */
const Places = ({ ledger, closures }: PlacesProps) => (
  <ul class="closures">
    {closures.map((closure) => (
      <li key={`${closure.entry} ${closure.kind}`}>
        <Fit>
          {(width) => (
            <BandScale
              id={`closure-${closure.entry}-${closure.kind}`}
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

const bandOf = ({ u }: Closure) => ({ from: -COVERAGE_95 * u, to: COVERAGE_95 * u, expected: 0 });

const nameOf = ({ accounts }: Ledger, { account }: Closure): string =>
  accounts.find(({ id }) => id === account)?.name ?? account;
