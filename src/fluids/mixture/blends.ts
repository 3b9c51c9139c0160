import blendFile from "../../../data/mixtures/blends.json";
import { isFluidId, type FluidId } from "../fluid-id.ts";
import { fluidInfo } from "../fluid.ts";
import { numberAt, recordAt, recordsAt, textAt, type Place } from "../json-place.ts";
import { mixture, type Mixture } from "./mixture.ts";

/** A fluid's share of a blend by mass. */
export interface BlendShare {
  readonly fluid: FluidId;
  /** kg/kg; those of a blend sum to 1. */
  readonly mass: number;
}

/** A blend with a name: an ASHRAE designation, or one of ours for a blend without. */
export interface BlendInfo {
  readonly name: string;
  /** Safety class of the designation; `null` where there is none. */
  readonly safetyClass: string | null;
  readonly shares: readonly BlendShare[];
  readonly source: string;
}

/** The named blends, in the order of their file. */
export const namedBlends: readonly BlendInfo[] = parseBlendFile(blendFile);

/** Case, dashes and spaces do not tell blends apart. */
const plain = (name: string): string => name.toLowerCase().replace(/[\s\-‐–]/gu, "");

const byName = new Map(namedBlends.map((blend) => [plain(blend.name), blend]));

/** The blend that a name means, such as "R-441A" or "hc 60/40"; `undefined` if none. */
export function blendInfo(name: string): BlendInfo | undefined {
  return byName.get(plain(name));
}

/**
 * The mixture and mole fractions of shares by mass.
 *
 * @param shares  Masses in any unit, > 0 in sum; a fluid must not occur twice.
 * @throws        RangeError for masses that are negative or sum to 0: the caller's bug.
 */
export function blendByMass(shares: readonly BlendShare[]): {
  readonly mixture: Mixture;
  readonly z: readonly number[];
} {
  const moles = shares.map(({ fluid, mass }) => mass / fluidInfo(fluid).M);
  const sum = moles.reduce((total, each) => total + each, 0);
  if (!(sum > 0) || moles.some((each) => !(each >= 0))) {
    throw new RangeError("masses of a blend are not negative and not all 0");
  }
  return { mixture: mixture(shares.map(({ fluid }) => fluid)), z: moles.map((each) => each / sum) };
}

/**
 * Reads data/mixtures/blends.json.
 *
 * @throws  Error naming the path: a bad data file is a fault of this package.
 */
export function parseBlendFile(value: unknown): readonly BlendInfo[] {
  const root = recordAt({ path: "", value });
  const schema = textAt(root("schema"));
  if (schema !== "coldproof-blends/1") {
    throw new Error(`schema: found ${schema}, accepted coldproof-blends/1`);
  }
  const sources = recordAt(root("sources"));
  return recordsAt(root("blends")).map((place) => {
    const at = recordAt(place);
    const shares = recordsAt(at("components")).map(parseShare);
    const sum = shares.reduce((total, { mass }) => total + mass, 0);
    if (Math.abs(sum - 1) > 1e-9) throw new Error(`${place.path}: masses sum to ${sum}`);
    const named = at("class");
    return {
      name: textAt(at("name")),
      safetyClass: named.value === null ? null : textAt(named),
      shares,
      source: textAt(sources(textAt(at("source")))),
    };
  });
}

function parseShare(place: Place): BlendShare {
  const at = recordAt(place);
  const fluid = textAt(at("fluid"));
  if (!isFluidId(fluid)) throw new Error(`${place.path}.fluid: no fluid ${fluid}`);
  return { fluid, mass: numberAt(at("massPercent")) / 100 };
}
