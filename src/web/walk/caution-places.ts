import type { Caution, StageView } from "../../trial/index.ts";

/**
 * Acts, or quantities to read, before which a caution stands: a transfer has its own before it is out of
 * the vehicle or into it. What is not listed stands before every act.
 */
const before: Readonly<Record<string, readonly string[]>> = {
  "flammable-law": ["transfer-in"],
  "flammable-charge": ["transfer-in"],
  "not-proven": ["transfer-out", "transfer-in", "run", "import"],
  "no-release": ["transfer-out", "oil-drained"],
  licensed: [],
  "identify-first": ["static-low", "transfer-out"],
  "eyes-and-skin": ["static-low", "static-high", "transfer", "oil-drained"],
  "moving-parts": ["static-low", "low-side", "engine-speed", "run", "import"],
  "no-shop-air": ["vacuum", "import-hold"],
  overfill: ["transfer-out", "gross-mass"],
  "own-cylinder": ["transfer-out"],
  "flammable-recovery": ["transfer-out", "vacuum", "pump-time"],
  "hold-is-coarse": ["vacuum", "import-hold"],
  "can-high-side": ["transfer-in"],
  "liquid-slug": ["transfer-in"],
  "road-eyes": ["vehicle-speed", "run", "import"],
  "cabin-leak": ["vehicle-speed", "run", "import", "vent-temperature"],
  "label-again": ["confirm"],
};

export const cautionsBefore = (stage: StageView, act: string): readonly Caution[] =>
  stage.cautions.filter(({ id }) => before[id]?.includes(act) ?? !act.startsWith("transfer-"));
