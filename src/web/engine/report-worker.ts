/** Writes and checks reports off the page's thread: all that a trial concludes is worked out anew. */
import "../shell/no-eval.ts";
import { checkReport, measuredLoops, renderReport } from "../../report/index.ts";
import { project } from "../../trial/index.ts";
import type { ReportMessage, ReportRequest } from "./report-message.ts";

interface Scope {
  addEventListener(type: "message", act: (event: { readonly data: ReportRequest }) => void): void;
  postMessage(message: ReportMessage): void;
}
const scope = self as unknown as Scope;

scope.addEventListener("message", ({ data }) => {
  scope.postMessage(answerTo(data));
});

function answerTo(request: ReportRequest): ReportMessage {
  switch (request.kind) {
    case "write":
      return { kind: "written", html: renderReport(request.events, request.options) };
    case "check":
      return { kind: "checked", seen: checkReport(request.html, request.program) };
    case "loops":
      return { kind: "loops", loops: measuredLoops(project(request.events), request.identified) };
  }
}
