import type { Closure, Ledger, Posting } from "../../trial/index.ts";
import { momentText } from "../names.ts";
import { BandScale } from "../pictures/band-scale.tsx";
import { MassColumns, massTable } from "../pictures/mass-columns.tsx";
import { DataTable, FoldedTable } from "../pictures/picture.tsx";
import type { VerdictKind } from "../pictures/verdict-mark.tsx";
import { formatNumber } from "../../units/index.ts";
import { COVERAGE_95, type Shown } from "../shown.ts";
import { type Page, vesselName } from "./context.ts";
import { Section, type SectionEntry, Twice } from "./section.tsx";

/** Where every gram is, each transfer with its evidence, and what does not close. */
export function LedgerPart({ page, id, title }: { page: Page } & SectionEntry) {
  const { ledger } = page.view;
  const shown = page.units.thing("small-mass");
  if (ledger.accounts.length === 0) {
    return <Section id={id} title={title} lead="No vessel was listed and nothing was moved." />;
  }
  const picture = { title: massTitle(ledger, shown), ledger, shown };
  return (
    <Section id={id} title={title} lead={conservationText(ledger, shown)}>
      <Twice
        id="ledger-end"
        draw={(drawing, width) => <MassColumns id={drawing} width={width} {...picture} />}
      />
      <p class="quiet">
        Bars show what each account holds at the end; a dashed outline what it held at the start.
      </p>
      <FoldedTable
        table={massTable({ id: "ledger-end", width: 0, ...picture })}
        summary="Holdings as numbers"
      />
      <h3>Postings</h3>
      {ledger.postings.length === 0 ? (
        <p class="quiet">Nothing was moved.</p>
      ) : (
        <DataTable
          caption="Every transfer between two accounts, with what it was weighed by"
          head={["When", "From → to", "Mass", "Evidence"]}
          rows={ledger.postings.map((posting) => postingRow(posting, page, shown))}
        />
      )}
      <Closures page={page} />
    </Section>
  );
}

/** The finding of the picture: what is gone and what nobody can explain. */
export function massTitle({ accounts }: Ledger, shown: Shown): string {
  const of = (kind: "lost" | "unaccounted"): string | undefined => {
    const account = accounts.find((one) => one.kind === kind);
    return account && shown.pair(account.mass);
  };
  const [lost, unaccounted] = [of("lost"), of("unaccounted")];
  if (lost === undefined && unaccounted === undefined) return "Nothing is lost or unaccounted for";
  return `Lost: ${lost ?? "nothing"}; not accounted for: ${unaccounted ?? "nothing"}`;
}

function conservationText({ conservation: { initial, now, holds } }: Ledger, shown: Shown): string {
  return holds
    ? `All accounts together hold ${shown.text(now)}, as much as at the start. What no reading explains is an account of its own, so that nothing disappears.`
    : `All accounts together hold ${shown.text(now)}, but held ${shown.text(initial)} at the start: the ledger itself is broken and its figures must not be used.`;
}

const legs = {
  moved: "moved",
  purged: "purged from hoses",
  disagreement: "disagreement of two scales",
  "found-empty": "left over when found empty",
} as const;

const evidences = {
  source: "source weighed",
  destination: "destination weighed",
  both: "both weighed",
  stated: "stated, not weighed",
  inspection: "by inspection",
} as const;

const postingRow = (posting: Posting, page: Page, shown: Shown): string[] => [
  momentText(posting.when),
  `${vesselName(page, posting.from)} → ${vesselName(page, posting.to)}: ${posting.parts
    .map(({ name }) => name)
    .join(", ")}`,
  shown.pair(posting.mass),
  [
    legs[posting.leg],
    evidences[posting.evidence],
    ...(posting.scaleAssumed ? ["scale not named, its limit assumed"] : []),
  ].join(", "),
];

const grades = { closes: "closes", doubtful: "doubtful", "does-not-close": "does not close" };

function kindOf({ grade, residual }: Closure): VerdictKind {
  if (grade === "closes") return "within";
  if (grade === "doubtful") return "undecided";
  return residual > 0 ? "higher" : "lower";
}

function Closures({ page }: { page: Page }) {
  const { closures } = page.view.ledger;
  const shown = page.units.difference("small-mass");
  return (
    <>
      <h3>What closes and what does not</h3>
      {closures.length === 0 && (
        <p class="quiet">No mass was determined in two ways, so there is nothing to check.</p>
      )}
      <ul class="devices">
        {closures.map((closure, i) => (
          <li key={i}>
            <Twice
              id={`closure-${i}`}
              draw={(id, width) => (
                <BandScale
                  id={id}
                  width={width}
                  compact
                  title={vesselName(page, closure.account)}
                  shown={shown}
                  band={{
                    from: -COVERAGE_95 * closure.u,
                    to: COVERAGE_95 * closure.u,
                    expected: 0,
                  }}
                  bandName="closes within"
                  // The band already carries the uncertainty of the difference: no whisker of its own.
                  reading={{ value: closure.residual, u: 0 }}
                  readingText={shown.text(closure.residual, closure.u)}
                  verdict={{ kind: kindOf(closure), word: grades[closure.grade] }}
                />
              )}
            />
            <p>
              {closure.sentence} {momentText(closure.when)}; {formatNumber(closure.z, 1)} standard
              uncertainties
              {closure.declared ? "; expected from a declaration, not from a scale" : ""}.
            </p>
          </li>
        ))}
      </ul>
    </>
  );
}
