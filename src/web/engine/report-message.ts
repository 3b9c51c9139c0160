import type { MeasuredLoop, ReportOptions, Verification } from "../../report/index.ts";
import type { Identification, StoredEvent } from "../../trial/index.ts";

export type ReportRequest =
  | {
      readonly kind: "write";
      readonly events: readonly StoredEvent[];
      readonly options: ReportOptions;
    }
  | { readonly kind: "check"; readonly html: string; readonly program: string }
  | {
      readonly kind: "loops";
      readonly events: readonly StoredEvent[];
      readonly identified: ReadonlyMap<string, Identification>;
    };

export type ReportMessage =
  | { readonly kind: "written"; readonly html: string }
  | { readonly kind: "checked"; readonly seen: Verification }
  | { readonly kind: "loops"; readonly loops: readonly MeasuredLoop[] };
