import type { Caution, StageView } from "../../trial/index.ts";

/** Acts, or quantities to read, before which a caution stands; what is not listed stands before every act. */
const before: Readonly<Record<string, readonly string[]>> = {
  "flammable-law": ["transfer"],
  "flammable-charge": ["transfer"],
  "no-release": ["transfer", "oil-drained"],
  licensed: [],
  "identify-first": ["static-low", "static-high", "transfer"],
  "eyes-and-skin": ["static-low", "static-high", "low-side", "high-side", "transfer", "oil-drained"],
  "moving-parts": ["static-low", "low-side", "high-side", "engine-speed", "run", "import"],
  "no-shop-air": ["static-low", "vacuum"],
  overfill: ["transfer", "gross-mass"],
  "own-cylinder": ["transfer"],
  "flammable-recovery": ["transfer", "vacuum", "pump-time"],
  "hold-is-coarse": ["vacuum", "import"],
  "can-high-side": ["transfer"],
  "liquid-slug": ["transfer"],
  "road-eyes": ["vehicle-speed", "run", "import"],
  "cabin-leak": ["vehicle-speed", "run", "import", "vent-temperature"],
  "label-again": ["confirm"],
};

export const cautionsBefore = (stage: StageView, act: string): readonly Caution[] =>
  stage.cautions.filter(({ id }) => before[id]?.includes(act) ?? true);
