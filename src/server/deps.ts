import type { Answer, Calculation } from "../calculations/index.ts";
import type { UnitSystem } from "../report/index.ts";
import type { EventStore } from "../store/index.ts";
import type { StoredEvent } from "../trial/index.ts";
import type { Site } from "./site.ts";

/** What a door tells about a calculation. */
export type OfferedCalculation = Pick<
  Calculation,
  "name" | "title" | "input" | "output" | "cautions" | "sources"
>;

/** What the server needs of the rooms behind it; the composition root hands it in. */
export interface ServerDeps {
  readonly store: EventStore;
  readonly calculations: readonly OfferedCalculation[];
  readonly compute: (name: string, input: unknown) => Answer;
  readonly report: (events: readonly StoredEvent[], units: UnitSystem) => string;
  readonly site: Site;
  /** Told of a fault of our own, with the request's method and path; the client gets a plain 500. */
  readonly onFault: (error: unknown, request: string) => void;
}
