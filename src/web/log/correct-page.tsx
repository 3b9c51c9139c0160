import { draftFrom } from "../forms/body.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import { vesselDraft } from "../plan/vessel-specs.ts";
import { view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { goBackTo, pathTo } from "../shell/route.ts";
import { Concerns } from "../transfers/concerns.tsx";
import { TransferPreview } from "../transfers/transfer-preview.tsx";
import { transferDraft } from "../transfers/transfer-specs.ts";
import { logWithoutFiles } from "../transfers/transfer-step.tsx";
import { correctSpecs, keptParts } from "./correct-specs.ts";
import { entryPlace, entryWords } from "./entry-words.ts";

interface Props {
  readonly trial: string;
  readonly entry: string;
}

/** Corrects an entry: its form as it stands now, and the reason. The first entry stays. */
export function CorrectPage({ trial, entry: id }: Props) {
  const seen = view.value;
  const entry = seen.entries.find((one) => one.id === id);
  const back = (): void => {
    goBackTo("trial", trial, "log", id);
  };
  if (!entry) {
    return (
      <main class="walk" id="main">
        <h1 tabIndex={-1}>This entry is not in the log</h1>
        <a class="button" href={pathTo("trial", trial, "log")}>
          To the log
        </a>
      </main>
    );
  }
  const specs = correctSpecs(entry);
  const { what, says } = entryWords(seen, entry);
  const typed = draftFrom(entry.body, specs);
  const start =
    entry.type === "transfer-posted"
      ? transferDraft(typed)
      : entry.type === "vessel-listed"
        ? vesselDraft(typed)
        : typed;
  return (
    <main class="walk has-action" id="main">
      <header class="step-head">
        <p class="eyebrow">Correction · {entryPlace(seen, entry)}</p>
        <h1 tabIndex={-1}>{what}</h1>
        <p class="why">
          Now in the log: <span class="figure">{says}</span>
        </p>
      </header>
      <EntryForm
        trial={trial}
        type={entry.type}
        formKey={`correct ${entry.id}`}
        specs={specs}
        start={start}
        fixed={keptParts(entry, specs)}
        corrects={entry}
        saveLabel="Save the correction"
        onCancel={back}
        onSaved={() => {
          say("Corrected. The first entry stays in the log.");
          back();
        }}
        {...(entry.type === "transfer-posted" && {
          beside: (name, draft) => name === "to" && <Concerns view={seen} draft={draft} />,
          preview: (body, issues) => (
            <TransferPreview
              trial={trial}
              view={seen}
              log={logWithoutFiles.value}
              body={body}
              issues={issues.filter(({ field }) => field !== "_reason")}
              replaces={entry.id}
            />
          ),
        })}
      />
    </main>
  );
}
