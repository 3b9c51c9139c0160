import type { Entry } from "../../trial/index.ts";
import { draftFrom } from "../forms/body.ts";
import { EntryForm, type EntryFormProps } from "../forms/entry-form.tsx";
import type { FieldSpec } from "../forms/spec.ts";
import { vesselDraft } from "../plan/vessel-specs.ts";
import type { Draft } from "../shell/drafts.ts";
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
  const entry = view.value.entries.find((one) => one.id === id);
  if (!entry) return <NotInLog trial={trial} />;
  const { what, says } = entryWords(view.value, entry);
  return (
    <main class="walk has-action" id="main">
      <header class="step-head">
        <p class="eyebrow">Correction · {entryPlace(view.value, entry)}</p>
        <h1 tabIndex={-1}>{what}</h1>
        <p class="why">
          Now in the log: <span class="figure">{says}</span>
        </p>
      </header>
      <CorrectionForm trial={trial} entry={entry} />
    </main>
  );
}

const NotInLog = ({ trial }: { readonly trial: string }) => (
  <main class="walk" id="main">
    <h1 tabIndex={-1}>This entry is not in the log</h1>
    <a class="button" href={pathTo("trial", trial, "log")}>
      To the log
    </a>
  </main>
);

interface FormProps {
  readonly trial: string;
  readonly entry: Entry;
}

function CorrectionForm({ trial, entry }: FormProps) {
  const specs = correctSpecs(entry);
  const back = (): void => {
    goBackTo("trial", trial, "log", entry.id);
  };
  return (
    <EntryForm
      trial={trial}
      type={entry.type}
      formKey={`correct ${entry.id}`}
      specs={specs}
      start={startOf(entry, specs)}
      fixed={keptParts(entry, specs)}
      corrects={entry}
      saveLabel="Save the correction"
      onCancel={back}
      onSaved={() => {
        say("Corrected. The first entry stays in the log.");
        back();
      }}
      {...(entry.type === "transfer-posted" && besideTransfer(trial, entry.id))}
    />
  );
}

/** The form as the entry stands now. */
function startOf(entry: Entry, specs: readonly FieldSpec[]): Draft {
  const typed = draftFrom(entry.body, specs);
  if (entry.type === "transfer-posted") return transferDraft(typed);
  return entry.type === "vessel-listed" ? vesselDraft(typed) : typed;
}

/** What a corrected transfer would do, and what speaks against its pair of vessels. */
const besideTransfer = (
  trial: string,
  replaces: string,
): Pick<EntryFormProps, "beside" | "preview"> => ({
  beside: (name, draft) => name === "to" && <Concerns view={view.value} draft={draft} />,
  preview: (body, issues) => (
    <TransferPreview
      trial={trial}
      view={view.value}
      log={logWithoutFiles.value}
      body={body}
      issues={issues.filter(({ field }) => field !== "_reason")}
      replaces={replaces}
    />
  ),
});
