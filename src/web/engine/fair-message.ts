import type { FairComparison, StoredEvent } from "../../trial/index.ts";

export interface FairRequest {
  readonly events: readonly StoredEvent[];
}

export type FairMessage =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "found"; readonly found: FairComparison };
