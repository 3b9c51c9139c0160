import type { ReportOptions, Verification } from "../../report/index.ts";
import type { StoredEvent } from "../../trial/index.ts";

export type ReportRequest =
  | {
      readonly kind: "write";
      readonly events: readonly StoredEvent[];
      readonly options: ReportOptions;
    }
  | { readonly kind: "check"; readonly html: string; readonly program: string };

export type ReportMessage =
  | { readonly kind: "written"; readonly html: string }
  | { readonly kind: "checked"; readonly seen: Verification };
