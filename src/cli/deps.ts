import type { Answer, Calculation } from "../calculations/index.ts";
import type { SigningKey, UnitSystem } from "../report/index.ts";
import type { LogStore, OpenOutcome } from "../store/index.ts";
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
  readonly report: (events: readonly StoredEvent[], units: UnitSystem, key?: SigningKey) => string;
  readonly startServer: StartServer;
  /** This machine's addresses in its networks, IPv4, without loopback. */
  readonly addresses: () => readonly string[];
  /** Asks a server, this one's or another. Rejects when no answer comes. */
  readonly http: (request: Request) => Promise<Response>;
  /** ms since 1970 */
  readonly now: () => number;
  readonly pause: (ms: number) => Promise<void>;
  /** Resolves when the person or the system asks the server to stop. */
  readonly untilStopped: () => Promise<void>;
}

export type Listening =
  | {
      readonly kind: "listening";
      readonly url: string;
      readonly port: number;
      stop(): Promise<void>;
    }
  | {
      readonly kind: "refused";
      readonly reason: "port-taken" | "not-allowed";
      readonly port: number;
    };

/** How a server is shared; see the server's own type of that name. */
export interface Sharing {
  readonly address: () => string;
  readonly names: readonly string[];
  readonly trustLoopback: boolean;
  readonly behindProxy: boolean;
  readonly operatorHash?: string;
}

/** `exact`: refuse a taken port instead of trying the next ones. `host`: loopback without it. */
export interface Where {
  readonly port: number;
  readonly exact: boolean;
  readonly host?: string;
  readonly tls?: { readonly cert: string; readonly key: string };
  readonly sharing?: Sharing;
}

export type StartServer = (store: LogStore, where: Where) => Promise<Listening>;
