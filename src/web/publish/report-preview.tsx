import { useEffect, useState } from "preact/hooks";
import { writtenReport } from "../engine/report-work.ts";
import { events } from "../shell/log-keeper.ts";
import { leaving, redacting } from "./leaving.ts";
import { reportAddress, reportUnits, serverHasAll } from "./report-choice.ts";

/**
 * The report beside the walk, at a desk. Where the server may be asked without a key it comes from there;
 * else this device writes it when somebody wants to see it.
 */
export function ReportPreview({ trial }: { readonly trial: string }) {
  const fromServer = serverHasAll.value && !redacting.value;
  const units = reportUnits.value;
  return (
    <section class="sheet report-preview" aria-labelledby="preview">
      <h3 id="preview">The report as it stands</h3>
      {fromServer ? (
        // Another log or other units are another page.
        <Framed key={`${events.value.length} ${units}`} src={reportAddress(trial, units)} />
      ) : (
        <WrittenHere />
      )}
    </section>
  );
}

/** An empty sandbox: nothing runs in it, and it is of no origin, so that it reaches neither log nor key. */
function Framed({ src }: { readonly src: string }) {
  const [here, setHere] = useState(false);
  return (
    <>
      {!here && (
        <p class="quiet" role="status">
          Being written; with many runs it takes some seconds.
        </p>
      )}
      <iframe
        src={src}
        title="The report as it stands"
        sandbox=""
        loading="lazy"
        onLoad={() => {
          setHere(true);
        }}
      />
    </>
  );
}

type Written =
  | { readonly kind: "asked" | "working" | "failed" }
  | { readonly kind: "written"; readonly address: string };

/** Written on this device, from the log as it would leave. */
function WrittenHere() {
  const log = leaving.value;
  const units = reportUnits.value;
  const [written, setWritten] = useState<Written>({ kind: "asked" });
  const show = async (): Promise<void> => {
    if (log === undefined) return;
    setWritten({ kind: "working" });
    const html = await writtenReport(log, { units, generatedAt: new Date().toISOString() });
    // Meanwhile the log may have grown, or what is hidden in it may have changed.
    if (leaving.peek() !== log || reportUnits.peek() !== units) return;
    if (html === undefined) setWritten({ kind: "failed" });
    else {
      const page = new Blob([html], { type: "text/html" });
      setWritten({ kind: "written", address: URL.createObjectURL(page) });
    }
  };
  // Another log or other units are another page: it is written again when it is asked for again.
  useEffect(() => {
    setWritten({ kind: "asked" });
  }, [log, units]);
  const address = written.kind === "written" ? written.address : undefined;
  useEffect(() => {
    if (address === undefined) return undefined;
    return () => {
      URL.revokeObjectURL(address);
    };
  }, [address]);
  if (address !== undefined) return <Framed src={address} />;
  return (
    <>
      <button
        type="button"
        class="button"
        disabled={log === undefined}
        aria-busy={written.kind === "working"}
        onClick={() => {
          if (written.kind !== "working") void show();
        }}
      >
        {written.kind === "working" ? "Working everything out…" : "Show it here"}
      </button>
      {written.kind === "failed" && (
        <p role="alert">This device could not write the report. Load the page again.</p>
      )}
    </>
  );
}
