import type { Answer, Calculation } from "../calculations/index.ts";
import type { UnitSystem } from "../report/index.ts";
import type { LogStore } from "../store/index.ts";
import type { Site } from "./site.ts";

/** What a door tells about a calculation. */
export type OfferedCalculation = Pick<
  Calculation,
  "name" | "title" | "input" | "output" | "cautions" | "sources"
>;

/** How a server is shared. Without it, it answers on this machine only, to its one user, without a key. */
export interface Sharing {
  /** Where devices reach it, without a slash at its end: stands in the links that pair them. */
  readonly address: () => string;
  /** Host names and addresses that it answers to beside this machine's own. */
  readonly names: readonly string[];
  /** Whoever sits at this machine is the home workspace's owner without a key. Never behind a proxy. */
  readonly trustLoopback: boolean;
  /** The last address in X-Forwarded-For is the client's: only where a proxy of ours sets it. */
  readonly behindProxy: boolean;
  /** SHA-256 of the operator's secret, who makes workspaces; absent: nobody may. */
  readonly operatorHash?: string;
}

/** A trial's log in pieces: each the JSON text of a list of events, in order. */
export type LogTexts = AsyncIterable<string>;

/** What the server needs of the rooms behind it; the composition root hands it in. */
export interface ServerDeps {
  readonly store: LogStore;
  readonly calculations: readonly OfferedCalculation[];
  readonly compute: (name: string, input: unknown) => Answer | Promise<Answer>;
  readonly report: (log: LogTexts, units: UnitSystem) => Promise<string>;
  readonly site: Site;
  readonly sharing?: Sharing;
  /** The clock, ms since 1970; the system's unless a test has its own. */
  readonly now?: () => number;
  /** Told of a fault of our own, with the request's method and path; the client gets a plain 500. */
  readonly onFault: (error: unknown, request: string) => void;
}

/** Who is at the other end of the connection; the socket knows. */
export interface Peer {
  /** IP address. */
  readonly address: string;
}
