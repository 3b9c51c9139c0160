import type { Dimension } from "../../units/index.ts";
import type { ReadingForm, ReadingQuantity, Stage } from "../events.ts";

/** One field to fill: what to read, in which unit at first, and why it is worth the walk. */
export interface ReadingPrompt {
  readonly id: string;
  readonly quantity: ReadingQuantity;
  readonly label: string;
  readonly dimension: Dimension;
  readonly defaultUnit: { readonly us: string; readonly si: string };
  /** Offered first is the first; "lowest" and "highest" belong to a cycling clutch. */
  readonly forms: readonly ReadingForm[];
  readonly place?: string;
  /** Account the reading is about: a vessel's id or the vehicle. */
  readonly vessel?: string;
  readonly why?: string;
}

export interface Requirement {
  /** Stable; a confirmation names it as its `item`. */
  readonly id: string;
  /** While it is unmet, what is to be done; once it is met, the statement. */
  readonly text: string;
  /** What holds when it is met: a person confirms these words. */
  readonly statement: string;
  readonly met: boolean;
  /** What meets it, or what is still missing. */
  readonly detail: string;
  readonly kind: "reading" | "transfer" | "run" | "confirm" | "set-up" | "import";
  /** Reading prompts (by id) that would meet it. */
  readonly prompts: readonly string[];
}

export interface Caution {
  readonly id: string;
  /** Danger: it can burn, burst, or nobody knows what it is. */
  readonly severity: "danger" | "caution";
  /** Two to five words that stand alone. */
  readonly lead: string;
  readonly text: string;
  readonly reason: string;
  readonly source: string;
}

export interface StageView {
  readonly stage: Stage;
  /** The product's id for Recover to Run. */
  readonly round?: string;
  readonly title: string;
  /** What must be true when it ends. */
  readonly endState: string;
  readonly status: "not-started" | "open" | "done";
  readonly requirements: readonly Requirement[];
  readonly cautions: readonly Caution[];
  readonly prompts: readonly ReadingPrompt[];
}
