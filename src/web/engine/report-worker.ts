/** Writes and checks reports off the page's thread: all that a trial concludes is worked out anew. */
import "../shell/no-eval.ts";
import { checkReport, renderReport } from "../../report/index.ts";
import type { ReportMessage, ReportRequest } from "./report-message.ts";

interface Scope {
  addEventListener(type: "message", act: (event: { readonly data: ReportRequest }) => void): void;
  postMessage(message: ReportMessage): void;
}
const scope = self as unknown as Scope;

scope.addEventListener("message", ({ data }) => {
  scope.postMessage(
    data.kind === "write"
      ? { kind: "written", html: renderReport(data.events, data.options) }
      : { kind: "checked", seen: checkReport(data.html, data.program) },
  );
});
