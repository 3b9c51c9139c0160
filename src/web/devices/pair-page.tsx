import { useState } from "preact/hooks";
import { redeem, type Redeemed } from "../shell/access.ts";
import { say } from "../shell/notice.ts";
import { prefer, preferences } from "../shell/preferences.ts";
import { goInstead, pathTo } from "../shell/route.ts";
import { synchroniseNow } from "../shell/synchronising.ts";
import { TopBar } from "../shell/top-bar.tsx";

const failures: Readonly<Record<Exclude<Redeemed["kind"], "paired">, string>> = {
  refused: "The server does not take this code: it was used, or it ran out. Ask for a new one.",
  away: "The server does not answer. Stay on its network and try again.",
  "not-understood": "The server’s answer is of another version. Load this page again.",
};

/** Redeems a code that another device shows, and names this one. */
export function PairPage({ code: given }: { readonly code: string }) {
  const [code, setCode] = useState(given);
  const [name, setName] = useState(preferences.value.device);
  const [failure, setFailure] = useState<string>();
  const [busy, setBusy] = useState(false);
  const pair = async (): Promise<void> => {
    setBusy(true);
    const outcome = await redeem(code, name.trim());
    setBusy(false);
    if (outcome.kind !== "paired") {
      setFailure(failures[outcome.kind]);
      return;
    }
    prefer({ device: name.trim() });
    if (outcome.moved) {
      goInstead();
      location.reload();
      return;
    }
    void synchroniseNow();
    say("This device is paired. Its log follows the server now.");
    goInstead();
  };
  return (
    <>
      <TopBar title="Pair" />
      <main class="page narrow" id="main">
        <h1 tabIndex={-1}>Pair this device</h1>
        <p class="lead">
          A device that is in already shows a code under Settings, Devices. Until this one is
          paired, it keeps what is on it and reads nothing from the server.
        </p>
        <form
          class="sheet"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            void pair();
          }}
        >
          <TextField id="code" label="The code" value={code} onText={setCode} />
          <TextField id="device-name" label="Name of this device" value={name} onText={setName} />
          {failure !== undefined && (
            <p class="objections" role="alert">
              {failure}
            </p>
          )}
          <button
            type="submit"
            class="button button-main"
            disabled={busy || code.trim() === "" || name.trim() === ""}
          >
            Pair this device
          </button>
        </form>
        <p>
          <a class="button" href={pathTo()}>
            Read what is on this device
          </a>
        </p>
      </main>
    </>
  );
}

interface FieldProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onText: (text: string) => void;
}

const TextField = ({ id, label, value, onText }: FieldProps) => (
  <div class="field">
    <label class="field-label" for={id}>
      {label}
    </label>
    <input
      id={id}
      class="text"
      type="text"
      maxLength={80}
      autocomplete="off"
      autocapitalize="off"
      spellcheck={false}
      value={value}
      onInput={(event) => {
        onText(event.currentTarget.value);
      }}
    />
  </div>
);
