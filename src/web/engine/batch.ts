import type { Answer } from "../../calculations/index.ts";

/** One request to a calculation. */
export interface Job {
  readonly name: string;
  readonly input: Readonly<Record<string, unknown>>;
}

/** Requests that belong together: they are sent and answered as one. */
export interface Batch {
  readonly id: number;
  readonly jobs: readonly Job[];
}

export interface BatchAnswer {
  readonly id: number;
  /** In the order of the jobs. */
  readonly answers: readonly Answer[];
}
