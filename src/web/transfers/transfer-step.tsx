import { computed } from "@preact/signals";
import { type StageView, vehicleAccount } from "../../trial/index.ts";
import { EntryForm } from "../forms/entry-form.tsx";
import type { Draft } from "../shell/drafts.ts";
import { events, view } from "../shell/log-keeper.ts";
import { say } from "../shell/notice.ts";
import { Concerns } from "./concerns.tsx";
import { transferSpecs } from "./transfer-specs.ts";
import { TransferPreview } from "./transfer-preview.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly onSaved: () => void;
  readonly onCancel: () => void;
}

export const logWithoutFiles = computed(() =>
  events.value.filter(({ type }) => type !== "trace-imported"),
);

/** What is likely at this stage, so that two taps fewer are needed; everything can be changed. */
function startOf(stage: StageView): Draft {
  const scale = view.value.instruments.filter(({ measures }) => measures === "mass");
  const only = scale.length === 1 ? scale[0]?.id : undefined;
  const named =
    only === undefined
      ? {}
      : { "sourceWeighing.instrument": only, "destinationWeighing.instrument": only };
  if (stage.stage === "recover" || stage.stage === "restore") {
    return { ...named, from: vehicleAccount, _destination: "yes" };
  }
  if (stage.stage === "charge") return { ...named, to: vehicleAccount, _source: "yes" };
  return named;
}

/** Posts a transfer: from, to, the scale before and after. */
export function TransferStep({ trial, stage, onSaved, onCancel }: Props) {
  return (
    <EntryForm
      trial={trial}
      type="transfer-posted"
      formKey={`transfer ${stage.stage} ${stage.round ?? "-"}`}
      specs={transferSpecs}
      start={startOf(stage)}
      fixed={{ stage: stage.stage, ...(stage.round !== undefined && { round: stage.round }) }}
      saveLabel="Post the transfer"
      onCancel={onCancel}
      onSaved={() => {
        say("Posted. The ledger is up to date.");
        onSaved();
      }}
      beside={(name, draft) =>
        name === "to" && <Concerns view={view.value} draft={draft} stage={stage} />
      }
      preview={(body, issues) => (
        <TransferPreview
          trial={trial}
          view={view.value}
          log={logWithoutFiles.value}
          body={body}
          issues={issues}
        />
      )}
    />
  );
}
