import { claimKindNames, ClaimVerdictWord, shownIn } from "../../report/index.ts";
import type { ClaimFinding, ProductClaims } from "../../trial/index.ts";
import { useSettled } from "../engine/use-settled.ts";
import { isWide } from "../look/is-wide.ts";
import { pathTo } from "../shell/route.ts";

/** Every sentence of every label with its verdict, what stands behind it, and what would decide it. */
export function ClaimsBoard({ trial }: { readonly trial: string }) {
  const { claims: products, working } = useSettled();
  if (products.length === 0) {
    return <p class="empty">List a product with what its label claims in Plan first.</p>;
  }
  return (
    <>
      {working && (
        <p class="quiet" role="status">
          Still working out the comparison in equal conditions and what is in the cans; some claims
          wait for it.
        </p>
      )}
      {products.map((product) => (
        <ProductSheet key={product.product} trial={trial} product={product} />
      ))}
    </>
  );
}

interface ProductProps {
  readonly trial: string;
  readonly product: ProductClaims;
}

function ProductSheet({ trial, product }: ProductProps) {
  const head = `claims-${product.product}`;
  return (
    <section class="sheet" aria-labelledby={head}>
      <h2 id={head}>What {product.name} claims</h2>
      {product.claims.length === 0 && (
        <p>
          No claim is written down.{" "}
          <a href={pathTo("trial", trial, "correct", product.product)}>
            Add the sentences of its label
          </a>
          , one a line.
        </p>
      )}
      {product.claims.map((claim, i) => (
        <Claim
          key={claim.text}
          claim={claim}
          href={pathTo("trial", trial, "stage", "claims", "-", "claim", product.product, String(i))}
        />
      ))}
      <Cost product={product} />
    </section>
  );
}

interface ClaimProps {
  readonly claim: ClaimFinding;
  /** Where its reading is corrected. */
  readonly href: string;
}

function Claim({ claim, href }: ClaimProps) {
  const decided =
    claim.statements.length > 0 && claim.statements.every(({ verdict }) => verdict !== "undecided");
  if (!decided) {
    return (
      <article class="claim">
        <h3 class="claim-text">“{claim.text}”</h3>
        <Statements claim={claim} href={href} verdicts />
      </article>
    );
  }
  return (
    <article class="claim">
      {/* On a phone a claim that is decided folds to its verdict, so that the open ones are found. */}
      <details class="claim-decided" open={isWide()}>
        <summary>
          <span class="claim-summary">
            <h3 class="claim-text">“{claim.text}”</h3>
            {claim.statements.map(({ reading, verdict }) => (
              <ClaimVerdictWord key={reading.kind} verdict={verdict} />
            ))}
          </span>
        </summary>
        <Statements claim={claim} href={href} verdicts={claim.statements.length > 1} />
      </details>
    </article>
  );
}

interface StatementsProps extends ClaimProps {
  /** The verdict does not stand above already. */
  readonly verdicts: boolean;
}

function Statements({ claim, href, verdicts }: StatementsProps) {
  const kinds = claim.statements.map(({ reading }) => claimKindNames[reading.kind]);
  return (
    <div class="claim-body">
      {claim.statements.map((one) => (
        <div class="claim-statement" key={one.reading.kind}>
          {verdicts && <ClaimVerdictWord verdict={one.verdict} />}
          <p class="claim-because">{one.because}</p>
          <p class="quiet">Tested as: {one.statement}</p>
          {one.wouldDecide !== undefined && (
            <p>
              <strong>What would decide it.</strong> {one.wouldDecide}
            </p>
          )}
          <details>
            <summary>What stands behind it ({one.evidence.length + 1})</summary>
            <ul class="claim-evidence">
              {one.evidence.map(({ from, text, source }) => (
                <li key={text}>
                  <strong>{EVIDENCE[from]}.</strong> {text}
                  {source !== undefined && <small class="quiet"> Source: {source}.</small>}
                </li>
              ))}
              <li>
                <strong>Method.</strong> {one.method}
              </li>
            </ul>
          </details>
        </div>
      ))}
      <p class="claim-read">
        <span class="quiet">
          {claim.readBy.kind === "person" ? "Read by a person as: " : "Read by its words as: "}
          {kinds.join("; ")}.
        </span>
        <a class="plain" href={href}>
          Read it otherwise
        </a>
      </p>
    </div>
  );
}

const EVIDENCE = { trial: "This trial", physics: "Physics", label: "The label" } as const;

/** What a charge costs, as far as the price can be read. */
function Cost({ product }: { readonly product: ProductClaims }) {
  const { price, cost } = product;
  if (price === undefined) return null;
  if (!cost) {
    return (
      <p class="quiet">
        Price as written: {price}. It cannot be read as one amount of one currency, so nothing is
        worked out from it.
      </p>
    );
  }
  const money = (amount: number): string => `${cost.currency} ${amount.toFixed(2)}`;
  const { perCharge, charge, cans, perCooling, relativeCooling } = cost;
  return (
    <div class="claim">
      <h3>What it costs</h3>
      {perCharge === undefined || charge === undefined || cans === undefined ? (
        <p>
          {money(cost.perCan)} a can. What a full charge costs is known once one was charged and the
          mass on the can is written down.
        </p>
      ) : (
        <p>
          The charge of {shownIn("g").text(charge)} took {cans.toFixed(2)} cans, {money(perCharge)}{" "}
          at {money(cost.perCan)} a can.
        </p>
      )}
      {perCooling !== undefined && relativeCooling !== undefined && (
        <p>
          For as much cooling as the label refrigerant gives: {money(perCooling)}. Its loop cools{" "}
          {relativeCooling.toFixed(2)} times as much by volume drawn in, at fixed temperatures; no
          delivered cooling was measured.
        </p>
      )}
    </div>
  );
}
