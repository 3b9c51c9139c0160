import { numberAt, recordAt, recordsAt, textAt, type Place } from "../json-place.ts";
import { parseResidual } from "../fluid-file.ts";
import type { ResidualTerm } from "../residual-term.ts";

/** Parameters of one binary pair, valid for the order (fluid1, fluid2). */
export interface PairParameters {
  readonly fluid1: string;
  readonly fluid2: string;
  readonly betaT: number;
  readonly gammaT: number;
  readonly betaV: number;
  readonly gammaV: number;
  /** Factor and name of the departure function; 0 and null where there is none. */
  readonly F: number;
  readonly departure: string | null;
  readonly quality: string;
  /** Full text of the source. */
  readonly source: string;
}

/** Key of a pair in {@link parsePairFile}: its fluids in either order. */
export function pairKey(fluid1: string, fluid2: string): string {
  return fluid1 < fluid2 ? `${fluid1}/${fluid2}` : `${fluid2}/${fluid1}`;
}

/**
 * Reads data/mixtures/binary-pairs.json.
 *
 * @throws  Error naming the path: a bad data file is a fault of this package.
 */
export function parsePairFile(value: unknown): ReadonlyMap<string, PairParameters> {
  const root = rootOf(value, "helmholtz-binary-pairs/1");
  const references = recordAt(root("references"));
  const pairs = recordsAt(root("pairs")).map((place): [string, PairParameters] => {
    const at = recordAt(place);
    const key = textAt(at("reference"));
    const departure = at("departure");
    const pair = {
      fluid1: textAt(at("fluid1")),
      fluid2: textAt(at("fluid2")),
      betaT: numberAt(at("betaT")),
      gammaT: numberAt(at("gammaT")),
      betaV: numberAt(at("betaV")),
      gammaV: numberAt(at("gammaV")),
      F: numberAt(at("F")),
      departure: departure.value === null ? null : textAt(departure),
      quality: textAt(at("quality")),
      source: textAt(recordAt(references(key))("text")),
    };
    return [pairKey(pair.fluid1, pair.fluid2), pair];
  });
  const found = new Map(pairs);
  if (found.size !== pairs.length) throw new Error("pairs: a pair is given twice");
  return found;
}

/** Reads data/mixtures/departures.json: terms by the name of the function. */
export function parseDepartureFile(value: unknown): ReadonlyMap<string, readonly ResidualTerm[]> {
  const root = rootOf(value, "helmholtz-departures/1");
  return new Map(
    recordsAt(root("functions")).map((place) => {
      const at = recordAt(place);
      return [textAt(at("name")), parseResidual(at("terms"))];
    }),
  );
}

function rootOf(value: unknown, schema: string): (key: string) => Place {
  const root = recordAt({ path: "", value });
  const found = textAt(root("schema"));
  if (found !== schema) throw new Error(`schema: found ${found}, accepted ${schema}`);
  return root;
}
