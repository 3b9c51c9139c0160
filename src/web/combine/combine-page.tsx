import { useEffect, useState } from "preact/hooks";
import type { CombinedResult } from "../../calculations/index.ts";
import { exportTrial, type TrialExport } from "../../trial/index.ts";
import { ask } from "../engine/engine.ts";
import { spokenInstant } from "../forms/instant.ts";
import { jsonOf } from "../home/json-of.ts";
import { readTrialRows, trialRows } from "../home/trial-list.ts";
import { theStore } from "../shell/log-keeper.ts";
import { pathTo } from "../shell/route.ts";
import { TopBar } from "../shell/top-bar.tsx";
import { CombinedGroup } from "./combined-group.tsx";

type State =
  | { readonly kind: "asking" }
  | { readonly kind: "working" }
  | { readonly kind: "said"; readonly sentence: string }
  | { readonly kind: "found"; readonly found: CombinedResult };

interface FileGiven {
  readonly name: string;
  readonly trial: unknown;
}

/** Several trials of one product together: other vehicles, other testers. */
export function CombinePage() {
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [files, setFiles] = useState<readonly FileGiven[]>([]);
  const [state, setState] = useState<State>({ kind: "asking" });
  useEffect(() => {
    void readTrialRows();
  }, []);
  const count = chosen.length + files.length;
  const choose = (trial: string, on: boolean): void => {
    setChosen([...chosen.filter((one) => one !== trial), ...(on ? [trial] : [])]);
    setState({ kind: "asking" });
  };
  const combine = async (): Promise<void> => {
    setState({ kind: "working" });
    setState(await combined([...(await logsOf(chosen)), ...files.map(({ trial }) => trial)]));
  };
  return (
    <>
      <TopBar title="Compare trials" />
      <main class="page" id="main">
        <h1 tabIndex={-1}>Compare trials of one product</h1>
        <p class="lead">
          Two trials or more, on other vehicles or by other testers. Each gives its difference at
          the vent in equal conditions; together they tell how much that differs from vehicle to
          vehicle.
        </p>
        <section class="sheet">
          <h2>Which trials?</h2>
          {(trialRows.value ?? []).map(({ trial, title, place, last }) => (
            <label key={trial} class="check">
              <input
                type="checkbox"
                checked={chosen.includes(trial)}
                onChange={({ currentTarget }) => {
                  choose(trial, currentTarget.checked);
                }}
              />
              <span>
                {title}
                <small>
                  {place !== undefined && `${place} · `}last entry {spokenInstant(last)}
                </small>
              </span>
            </label>
          ))}
          {files.map(({ name }) => (
            <p key={name}>From a file: {name}</p>
          ))}
          <label class="button file-button">
            Add trial files
            <input
              type="file"
              multiple
              accept="application/json,.json"
              onChange={(event) => {
                const list = [...(event.currentTarget.files ?? [])];
                void filesRead(list).then((read) => {
                  setFiles([...files, ...read]);
                  setState({ kind: "asking" });
                });
              }}
            />
          </label>
          <button
            type="button"
            class="button button-main"
            disabled={count < 2 || state.kind === "working"}
            onClick={() => void combine()}
          >
            {count < 2 ? "Choose two or more" : `Compare ${count} trials`}
          </button>
          <p role="status">
            {state.kind === "working" && "Carrying each trial to equal conditions."}
          </p>
          {state.kind === "said" && (
            <p class="field-issue" role="alert">
              {state.sentence}
            </p>
          )}
        </section>
        {state.kind === "found" && <Found found={state.found} />}
        <p>
          <a class="button" href={pathTo()}>
            Back to all trials
          </a>
        </p>
      </main>
    </>
  );
}

const logsOf = (trials: readonly string[]): Promise<TrialExport[]> =>
  Promise.all(trials.map(async (trial) => exportTrial((await theStore().read(trial)).events)));

const filesRead = (files: readonly File[]): Promise<FileGiven[]> =>
  Promise.all(files.map(async (file) => ({ name: file.name, trial: jsonOf(await file.text()) })));

async function combined(trials: readonly unknown[]): Promise<State> {
  const broken = "This device could not compute it. Load the page again and try once more.";
  const input = { trials: trials.map((trial) => trial ?? {}) };
  const [answer] = await ask([{ name: "combine-trials", input }]).answers.catch(() => []);
  switch (answer?.kind) {
    case undefined:
      return { kind: "said", sentence: broken };
    case "no-answer":
      return { kind: "said", sentence: answer.message };
    case "invalid": {
      const place = Number(answer.issues[0]?.field.split(".")[1]) + 1;
      const which = Number.isFinite(place) ? `The trial at place ${place}` : "One of them";
      return { kind: "said", sentence: `${which} is no whole trial file. Choose another.` };
    }
    case "answer":
      // The calculation's own schema is tested to be what its result is.
      return { kind: "found", found: answer.result as CombinedResult };
  }
}

const Found = ({ found }: { readonly found: CombinedResult }) => (
  <>
    {found.groups.map((group) => (
      <CombinedGroup
        key={`${group.product} ${group.label} ${group.condition} ${group.form}`}
        group={group}
      />
    ))}
    <section class="sheet">
      <h2>What this rests on</h2>
      <ul>
        {found.leftOut.map((sentence) => (
          <li key={sentence}>Left out: {sentence}</li>
        ))}
        <li>
          Trials are taken as independent. Vehicles, instruments or testers that two of them share
          make the interval too narrow.
        </li>
        <li>The smallest margin that was fixed before the data decides.</li>
      </ul>
    </section>
  </>
);
