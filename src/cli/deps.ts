import type { Answer, Calculation } from "../calculations/index.ts";
import type { UnitSystem } from "../report/index.ts";
import type { EventStore, OpenOutcome } from "../store/index.ts";
import type { StoredEvent } from "../trial/index.ts";

/** What a door tells about a calculation. */
export type OfferedCalculation = Pick<
  Calculation,
  "name" | "title" | "input" | "output" | "cautions" | "sources"
>;

/** Everything that a command touches, so that tests need no process. */
export interface CliDeps {
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly stdout: NodeJS.WritableStream;
  readonly stderr: NodeJS.WritableStream;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly version: string;
  /** The data file when neither `--data` nor COLDPROOF_DATA names one. */
  readonly defaultData: string;
  readonly calculations: readonly OfferedCalculation[];
  readonly compute: (name: string, input: unknown) => Answer;
  readonly openStore: (path: string) => Promise<OpenOutcome>;
  readonly report: (events: readonly StoredEvent[], units: UnitSystem) => string;
  readonly startServer: StartServer;
  /** Asks a server, this one's or another. Rejects when no answer comes. */
  readonly http: (request: Request) => Promise<Response>;
  /** ms since 1970 */
  readonly now: () => number;
  readonly pause: (ms: number) => Promise<void>;
  /** Resolves when the person or the system asks the server to stop. */
  readonly untilStopped: () => Promise<void>;
}

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
