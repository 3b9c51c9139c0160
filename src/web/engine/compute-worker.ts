/** Answers calculations off the page's thread, so that typing never waits for them. */
import "../shell/no-eval.ts";
import { type Answer, compute } from "../../calculations/index.ts";
import type { Batch, BatchAnswer } from "./batch.ts";

interface Scope {
  addEventListener(type: "message", act: (event: { readonly data: Batch }) => void): void;
  postMessage(message: BatchAnswer): void;
}
const scope = self as unknown as Scope;

scope.addEventListener("message", ({ data: { id, jobs } }) => {
  const answers = jobs.map(({ name, input }): Answer => compute(name, input));
  scope.postMessage({ id, answers });
});
