import type { z } from "zod";
import type { EventStore, OpenOutcome } from "../store/index.ts";
import type { StoredEvent, TrialEvent } from "../trial/index.ts";
import type { WireIssue } from "../wire/index.ts";

/** Everything that a command touches, so that tests need no process. */
export interface CliDeps {
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly stdout: NodeJS.WritableStream;
  readonly stderr: NodeJS.WritableStream;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly version: string;
  /** The data file when neither `--data` nor COLDPROOF_DATA names one. */
  readonly defaultData: string;
  readonly calculations: readonly NamedCalculation[];
  readonly compute: (name: string, input: unknown) => Computed;
  readonly openStore: (path: string) => Promise<OpenOutcome>;
  readonly report: (events: readonly StoredEvent[]) => string;
  readonly exportTrial: (events: readonly StoredEvent[]) => string;
  readonly parseExport: (input: unknown) => ParsedExport;
  readonly titleOf: (events: readonly StoredEvent[]) => string | undefined;
  readonly startServer: StartServer;
  /** Resolves when the person or the system asks the server to stop. */
  readonly untilStopped: () => Promise<void>;
}

export interface NamedCalculation {
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

export type Listening =
  | { readonly kind: "listening"; readonly url: string; stop(): Promise<void> }
  | {
      readonly kind: "refused";
      readonly reason: "port-taken" | "not-allowed";
      readonly port: number;
    };

/** `exact`: refuse a taken port instead of trying the next ones. */
export type StartServer = (
  store: EventStore,
  where: { readonly port: number; readonly exact: boolean },
) => Promise<Listening>;
