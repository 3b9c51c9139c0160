import type { WireIssue } from "../wire/index.ts";

/** 422: what came cannot be used; each issue names a field, its value and what is accepted. */
export function invalid(issues: readonly WireIssue[], status = 422): Response {
  return Response.json({ issues }, { status });
}

/** Every other refusal: one kind for programs, one sentence for people. */
export function refusal(status: number, kind: string, message: string): Response {
  return Response.json({ error: { kind, message } }, { status });
}
