import type { BodyOf } from "../events.ts";
import type { InstrumentView } from "../view.ts";
import { type Form, plus, zero } from "./form.ts";
import { estimated, weighedDifference } from "./scales.ts";
import { type AccountId, lostAccount, type Posting, unaccountedAccount } from "./view.ts";

/** One line a transfer posts: out of its source, into `to`. */
export interface Leg {
  readonly to: AccountId;
  readonly mass: Form;
  readonly leg: Posting["leg"];
}

export interface Legs {
  readonly legs: readonly Leg[];
  readonly evidence: "source" | "destination" | "both" | "stated";
  readonly scaleAssumed: boolean;
}

type Transfer = BodyOf<"transfer-posted">;

/**
 * What a transfer's evidence says moved, was purged, and does not agree.
 *
 * Source and destination both weighed: what arrived is posted, and source − purge − arrival goes to
 * "unaccounted". Source alone: what it gave less the purge arrived. Destination alone: the source
 * gave what arrived and the purge. An estimate counts only when nothing was weighed.
 */
export function legsOf(
  entry: string,
  body: Transfer,
  instruments: readonly InstrumentView[],
): Legs {
  const purge = body.purged ? estimated(`${entry}:purged`, body.purged) : zero;
  const source =
    body.sourceWeighing && weighedDifference(`${entry}:source`, body.sourceWeighing, instruments);
  const destination =
    body.destinationWeighing &&
    weighedDifference(`${entry}:destination`, body.destinationWeighing, instruments);
  const scaleAssumed = (source?.assumed ?? false) || (destination?.assumed ?? false);
  const purged: Leg[] = body.purged ? [{ to: lostAccount, mass: purge, leg: "purged" }] : [];
  const moved = (mass: Form): Leg => ({ to: body.to, mass, leg: "moved" });
  if (destination) {
    const legs = [moved(destination.mass), ...purged];
    if (!source) return { legs, evidence: "destination", scaleAssumed };
    const given = plus(zero, source.mass, -1);
    const disagreement = plus(plus(given, purge, -1), destination.mass, -1);
    legs.push({ to: unaccountedAccount, mass: disagreement, leg: "disagreement" });
    return { legs, evidence: "both", scaleAssumed };
  }
  if (source) {
    const given = plus(zero, source.mass, -1);
    return { legs: [moved(plus(given, purge, -1)), ...purged], evidence: "source", scaleAssumed };
  }
  const stated = body.stated ? estimated(`${entry}:stated`, body.stated) : zero;
  return { legs: [moved(plus(stated, purge, -1)), ...purged], evidence: "stated", scaleAssumed };
}
