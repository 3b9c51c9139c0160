import type { z } from "zod";
import type { EventStore } from "../store/index.ts";
import type { StoredEvent, TrialEvent } from "../trial/index.ts";
import type { WireIssue } from "../wire/index.ts";
import type { Site } from "./site.ts";

/** What the server needs of the rooms behind it; the composition root hands it in. */
export interface ServerDeps {
  readonly store: EventStore;
  readonly calculations: readonly OfferedCalculation[];
  readonly compute: (name: string, input: unknown) => Computed;
  readonly report: (events: readonly StoredEvent[]) => string;
  readonly exportTrial: (events: readonly StoredEvent[]) => string;
  readonly parseExport: (input: unknown) => ParsedExport;
  readonly site: Site;
  /** Told of a fault of our own, with the request's method and path; the client gets a plain 500. */
  readonly onFault: (error: unknown, request: string) => void;
}

export interface OfferedCalculation {
  readonly name: string;
  readonly title: string;
  readonly input: z.ZodType;
  readonly output: z.ZodType;
  readonly cautions: readonly string[];
  readonly sources: readonly string[];
}

export type Computed =
  | {
      readonly kind: "answer";
      readonly result: unknown;
      readonly uncertainty?: unknown;
      readonly cautions: readonly unknown[];
      readonly sources: readonly unknown[];
      readonly assumptions?: readonly unknown[];
    }
  | { readonly kind: "invalid"; readonly issues: readonly WireIssue[] }
  | { readonly kind: "no-answer"; readonly reason: string; readonly message: string };

export type ParsedExport =
  | { readonly kind: "trial"; readonly events: readonly TrialEvent[] }
  | { readonly kind: "invalid"; readonly issues: readonly WireIssue[] };
