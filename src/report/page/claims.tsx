import type { ClaimFinding, ProductClaims } from "../../trial/index.ts";
import { shownIn } from "../shown.ts";
import { ClaimVerdictWord } from "../pictures/claim-verdict.tsx";
import type { Page } from "./context.ts";
import { Section, type SectionEntry } from "./section.tsx";
import { workedOut } from "./worked-out.ts";

const LEAD =
  "Each sentence of a label as a statement that something can speak for or against. What only the label declares can contradict the label; it supports nothing.";

/** Every sentence of every label, with its verdict and what stands behind it. */
export function Claims({ page, id, title }: { page: Page } & SectionEntry) {
  const products = workedOut(page.view).claims;
  const any = products.some(({ claims }) => claims.length > 0);
  return (
    <Section id={id} title={title} lead={any ? LEAD : "No claim is written down."}>
      {products.map((product) => (
        <div class="comparison" key={product.product}>
          {product.claims.map((claim) => (
            <Claim key={claim.text} claim={claim} product={product} />
          ))}
          <Cost product={product} />
        </div>
      ))}
    </Section>
  );
}

const EVIDENCE = { trial: "This trial", physics: "Physics", label: "The label" } as const;

const Claim = ({ claim, product }: { claim: ClaimFinding; product: ProductClaims }) => (
  <div class="conditions">
    <h3>
      {product.name}: “{claim.text}”
    </h3>
    {claim.readBy.kind === "person" && (
      <p class="quiet">How it is read was corrected by a person; the entry is in the record.</p>
    )}
    {claim.statements.map((one) => (
      <div key={one.reading.kind}>
        <ClaimVerdictWord verdict={one.verdict} />
        <p>
          <strong>{one.because}</strong>
        </p>
        <p class="quiet">Tested as: {one.statement}</p>
        <ul>
          {one.evidence.map(({ from, text, source }) => (
            <li key={text}>
              {EVIDENCE[from]}: {text}
              {source !== undefined && <span class="quiet"> Source: {source}.</span>}
            </li>
          ))}
          <li>Method: {one.method}</li>
          {one.wouldDecide !== undefined && <li>What would decide it: {one.wouldDecide}</li>}
        </ul>
      </div>
    ))}
  </div>
);

/** What a charge costs, as far as its price can be read. */
function Cost({ product: { name, price, cost } }: { product: ProductClaims }) {
  if (price === undefined) return null;
  if (cost?.perCharge === undefined || cost.charge === undefined) {
    return (
      <p>
        {name} costs {price} as written; what a full charge costs is not known.
      </p>
    );
  }
  const money = (amount: number): string => `${cost.currency} ${amount.toFixed(2)}`;
  return (
    <p>
      The charge of {shownIn("g").text(cost.charge)} of {name} cost {money(cost.perCharge)}.
      {cost.perCooling !== undefined &&
        ` For as much cooling as the label refrigerant gives, by a loop at fixed temperatures: ${money(cost.perCooling)}; delivered cooling was not measured.`}
    </p>
  );
}
