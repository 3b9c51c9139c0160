import type { TrialView } from "../../trial/index.ts";
import type { Dimension } from "../../units/index.ts";
import type { Draft } from "../shell/drafts.ts";

export interface Option {
  readonly value: string;
  readonly label: string;
  readonly hint?: string;
  /** Neighbours of one group stand under its name in a list. */
  readonly group?: string;
}

interface Common {
  /** Path of the value in the entry's body; a leading "_" keeps it on the form only. */
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
  readonly optional?: boolean;
  readonly shown?: (draft: Draft) => boolean;
  /** A heading before this field: it starts a group. */
  readonly group?: string;
}

/** One field of a form: what it asks, how it is typed, where it goes. */
export type FieldSpec = Common &
  (
    | { readonly kind: "text"; readonly long?: boolean }
    /** One text a line. */
    | { readonly kind: "lines" }
    | { readonly kind: "number"; readonly suffix?: string }
    | {
        readonly kind: "quantity";
        /** May be below zero. */
        readonly signed?: boolean;
        readonly dimensions: readonly Dimension[] | ((draft: Draft) => readonly Dimension[]);
        readonly unit:
          | { readonly us: string; readonly si: string }
          | ((draft: Draft) => { readonly us: string; readonly si: string });
      }
    | { readonly kind: "choice"; readonly options: readonly Option[]; readonly initial?: string }
    /** One pure fluid that can be computed. */
    | { readonly kind: "fluid"; readonly none: string }
    | { readonly kind: "flag"; readonly initial?: boolean }
    | {
        readonly kind: "pick";
        readonly options: (view: TrialView, draft: Draft) => readonly Option[];
        /** What to say when there is nothing to pick. */
        readonly none: string;
        readonly initial?: string;
      }
    | { readonly kind: "substance" }
    | { readonly kind: "when" }
  );

export type QuantitySpec = Extract<FieldSpec, { kind: "quantity" }>;

export const dimensionsOf = (spec: QuantitySpec, draft: Draft): readonly Dimension[] =>
  typeof spec.dimensions === "function" ? spec.dimensions(draft) : spec.dimensions;

export const usualUnitOf = (spec: QuantitySpec, draft: Draft) =>
  typeof spec.unit === "function" ? spec.unit(draft) : spec.unit;

export const isShown = (spec: FieldSpec, draft: Draft): boolean => spec.shown?.(draft) ?? true;

/** What a choice stands at before anybody touches it. */
export function initialOf(spec: FieldSpec): string {
  if (spec.kind === "choice" || spec.kind === "pick") return spec.initial ?? "";
  if (spec.kind === "flag") return spec.initial === true ? "yes" : "";
  return "";
}
