/** What a sentence of a label can be tested as. */
export const claimKinds = [
  "equals-mass",
  "net-mass",
  "contains",
  "not-flammable",
  "no-ozone-depletion",
  "gwp",
  "drop-in",
  "lower-head-pressure",
  "colder-air",
  "approved",
  "other",
] as const;
export type ClaimKind = (typeof claimKinds)[number];

/** A sentence as a statement that something can speak for or against. */
export interface ClaimReading {
  readonly kind: ClaimKind;
  /** Mass of the product that the sentence speaks of, kg. */
  readonly mass?: number;
  /** What it is said to equal, kg. */
  readonly equals?: number;
  /** Of which refrigerant, or what it is said to contain; a name as listed here where it is one. */
  readonly of?: string;
  /** Said to be pure. */
  readonly pure?: boolean;
  /** Global warming potential that is not to be passed, kg/kg. */
  readonly limit?: number;
}
