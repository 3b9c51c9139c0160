import { toSI } from "../../units/index.ts";
import type { BodyOf } from "../events.ts";
import { given } from "../given.ts";
import { ofType } from "../plan.ts";
import type { TrialView } from "../view.ts";
import type { ClaimEffect, ClaimVerdict, KnownSubstance } from "./claims/context.ts";
import { type ChargeCost, chargeCost } from "./claims/cost.ts";
import { judgeClaim } from "./claims/judge-claim.ts";
import type { ClaimReading } from "./claims/kinds.ts";
import { readClaim } from "./claims/read-claim.ts";
import { claimContext } from "./claims/trial-context.ts";

/** A sentence of a label: how it was read, and how each statement of it stands. */
export interface ClaimFinding {
  readonly product: string;
  /** As it stands on the label. */
  readonly text: string;
  /** By rules on its words, or by a person: then the entry that says so. */
  readonly readBy: { readonly kind: "rules" } | { readonly kind: "person"; readonly entry: string };
  readonly statements: readonly (ClaimVerdict & { readonly reading: ClaimReading })[];
}

/** The claims of one product. */
export interface ProductClaims {
  readonly product: string;
  readonly name: string;
  readonly claims: readonly ClaimFinding[];
  /** As typed; what it comes to where it can be read. */
  readonly price?: string;
  readonly cost?: ChargeCost;
}

/** A product's difference in equal conditions, from wherever it was worked out. */
export type FairEffect = ClaimEffect & { readonly product: string };

/** What other findings settled of this trial. */
export interface WorkedOut {
  readonly fair?: readonly FairEffect[];
  readonly identified?: ReadonlyMap<string, KnownSubstance>;
}

const readingOf = (body: BodyOf<"claim-read">): ClaimReading =>
  given({
    kind: body.kind,
    mass: body.mass && toSI(body.mass),
    equals: body.equals && toSI(body.equals),
    of: body.of,
    pure: body.pure,
    limit: body.limit,
  });

/**
 * Every sentence of every label with its verdict. Pure: the same view gives the same findings.
 *
 * @param known What was worked out elsewhere: differences carried to equal conditions, without which a comparison as
 *              measured decides only where its conditions were equal; and contents of products, by their id, that an
 *              identification settled.
 */
export function claimFindings(view: TrialView, known: WorkedOut = {}): readonly ProductClaims[] {
  const read = ofType(
    view.entries.filter(({ withdrawn }) => !withdrawn),
    "claim-read",
  );
  return view.products.map((product) => {
    const context = claimContext(view, product, {
      fair: (known.fair ?? []).filter((effect) => effect.product === product.id),
      identified: known.identified?.get(product.id),
    });
    const claims = [...new Set(product.claims)].map((text): ClaimFinding => {
      const own = read.findLast(({ body }) => body.product === product.id && body.text === text);
      const readings = own ? [readingOf(own.body)] : readClaim(text);
      return {
        product: product.id,
        text,
        readBy: own ? { kind: "person", entry: own.id } : { kind: "rules" },
        statements: readings.map((reading) => ({ reading, ...judgeClaim(reading, context) })),
      };
    });
    const { id, name, price } = product;
    return given({ product: id, name, claims, price, cost: chargeCost(view, product) });
  });
}
