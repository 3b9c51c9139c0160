import type { Issue } from "../../trial/index.ts";
import { jumpTo } from "../fields/jump.ts";
import { fieldId } from "./form-field.tsx";
import type { FieldSpec } from "./spec.ts";

/** The field an objection speaks of: the longest name that its path starts with. */
export function specOf(issue: Issue, specs: readonly FieldSpec[]): FieldSpec | undefined {
  const path = issue.field.replace(/^body\./, "");
  return specs
    .filter(({ name }) => path === name || path.startsWith(`${name}.`) || path === "(whole)")
    .sort((a, b) => b.name.length - a.name.length)[0];
}

export const issueFor = (spec: FieldSpec, issues: readonly Issue[], specs: readonly FieldSpec[]) =>
  issues.find((issue) => specOf(issue, specs) === spec)?.accepted;

interface Props {
  readonly form: string;
  readonly issues: readonly Issue[];
  readonly specs: readonly FieldSpec[];
  readonly failure?: string | undefined;
}

/** What stands in the way of saving, each with a way to its field. */
export function Objections({ form, issues, specs, failure }: Props) {
  if (issues.length === 0 && failure === undefined) return null;
  return (
    <div class="objections" role="alert">
      {failure !== undefined && <p>Not saved. {failure}</p>}
      {issues.length > 0 && (
        <>
          <p>
            Not saved yet: {issues.length === 1 ? "one thing" : `${issues.length} things`} to put
            right.
          </p>
          <ul>
            {issues.map((issue) => {
              const spec = specOf(issue, specs);
              return (
                <li key={`${issue.field} ${issue.accepted}`}>
                  {spec === undefined ? (
                    `${issue.field}: ${issue.accepted}`
                  ) : (
                    <button
                      type="button"
                      class="plain"
                      onClick={() => {
                        jumpTo(fieldId(form, spec.name));
                      }}
                    >
                      {spec.label}: {issue.accepted}
                    </button>
                  )}
                </li>
              );
            })}
          </ul>
        </>
      )}
    </div>
  );
}
