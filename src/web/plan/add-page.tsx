import { EntryForm } from "../forms/entry-form.tsx";
import { changeDraft, draftOf } from "../shell/drafts.ts";
import { say } from "../shell/notice.ts";
import { goBackTo } from "../shell/route.ts";
import { quickPicks } from "./instrument-specs.ts";
import { kinds } from "./kinds.ts";

interface Props {
  readonly trial: string;
  readonly kind: string;
}

/** One short form of the set-up. */
export function AddPage({ trial, kind }: Props) {
  const found = kinds[kind];
  if (!found) return <p class="page">There is no such form.</p>;
  const back = (): void => {
    goBackTo("trial", trial, "stage", "plan", "-");
  };
  return (
    <main class="walk has-action" id="main">
      <h1 tabIndex={-1}>{found.heading}</h1>
      {kind === "instrument" && <QuickPicks />}
      <EntryForm
        trial={trial}
        type={found.type}
        formKey={`add ${kind}`}
        specs={found.specs}
        saveLabel={found.saveLabel}
        onCancel={back}
        onSaved={() => {
          say(`Saved: ${found.heading.toLowerCase()}.`);
          back();
        }}
      />
    </main>
  );
}

/** Common instruments with the source of their class; the form below then holds them, to be changed. */
function QuickPicks() {
  const name = draftOf("add instrument")["name"] ?? "";
  return (
    <details class="picks" open={name === ""}>
      <summary>Start from a common instrument</summary>
      <ul>
        {quickPicks.map((pick) => (
          <li key={pick.label}>
            <button
              type="button"
              class="row"
              onClick={() => {
                changeDraft("add instrument", pick.draft);
              }}
            >
              <strong>{pick.label}</strong>
              <small>{pick.source}</small>
            </button>
          </li>
        ))}
      </ul>
      <p class="quiet">Then check it against the plate of your own instrument.</p>
    </details>
  );
}
