import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { StageView, TraceView } from "../../trial/index.ts";
import { shortNames, unitChoice } from "../../report/index.ts";
import { view } from "../shell/log-keeper.ts";
import { preferences } from "../shell/preferences.ts";
import { ProblemList } from "../traces/problem-list.tsx";
import { TracePicture } from "../traces/trace-picture.tsx";
import { beep, setSounds, sounds } from "./alarm.ts";
import { LiveFigure } from "./live-figure.tsx";
import { RecordRun } from "./record-run.tsx";
import { SendTo } from "./send-to.tsx";
import { allSettled, standingsOf } from "./standing.ts";
import { useWakeLock } from "./wake-lock.ts";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
  readonly trace: TraceView;
}

/** A stream as it grows: large figures, what each will do, the trace, and the run in one tap. */
export function LiveStream({ trial, stage, trace }: Props) {
  const seen = view.value;
  const standings = useMemo(() => standingsOf(trace), [trace]);
  const settled = allSettled(standings);
  const unread = trace.series.filter(({ t }) => t.length === 0);
  useBeepOnce(settled);
  const units = unitChoice(seen, preferences.value.system);
  return (
    <>
      <p class="live-head">
        <strong>{trace.fileName}</strong> <Age trace={trace} />
      </p>
      {standings.length === 0 ? (
        <p class="empty">No sample came yet. Start the instrument; its first one appears here.</p>
      ) : (
        <ul class="live-figures">
          {standings.map((standing) => (
            <LiveFigure
              key={standing.series.column}
              standing={standing}
              shown={units.quantity(standing.series.quantity)}
            />
          ))}
        </ul>
      )}
      {standings.length > 0 && unread.length > 0 && (
        <p class="told">
          Nothing of{" "}
          <strong>{unread.map(({ quantity }) => shortNames[quantity]).join(", ")}</strong> can be
          read. Does the instrument send it, in this stream’s unit?
        </p>
      )}
      {trace.problems.length > 0 && <ProblemList trace={trace} />}
      <p class="live-verdict" role="status">
        {settled
          ? `All ${unread.length > 0 ? "that can be read" : "of it"} has settled. Record the run now.`
          : standings.length > 0 && "Not everything has settled yet."}
      </p>
      {standings.length > 0 && <RecordRun {...{ trial, stage, trace, settled }} />}
      <Switches />
      {standings.length > 0 && <TracePicture trace={trace} view={seen} />}
      <SendTo trial={trial} trace={trace} />
    </>
  );
}

/** Beeps when all has settled, and again only after something moved meanwhile. */
function useBeepOnce(settled: boolean): void {
  const before = useRef(settled);
  useEffect(() => {
    if (settled && !before.current) beep();
    before.current = settled;
  }, [settled]);
}

/** Silence for longer than this is said loudly: a hose or a cable came off. */
const silentAfter = 15;

/** How long ago the newest sample was read, by the two clocks. */
function Age({ trace }: { readonly trace: TraceView }) {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    const timer = setInterval(() => {
      setNow(Date.now());
    }, 1000);
    return () => {
      clearInterval(timer);
    };
  }, []);
  const last = Math.max(...trace.series.map(({ t }) => t.at(-1) ?? -Infinity));
  if (!Number.isFinite(last)) return null;
  const age = Math.max(0, (now - Date.parse(`${trace.start}Z`)) / 1000 - last);
  const words = age < 100 ? `${age.toFixed(0)} s` : `${(age / 60).toFixed(0)} min`;
  return age > silentAfter ? (
    <span class="live-silent">Silent for {words}</span>
  ) : (
    <span class="quiet figure">last sample {words} ago</span>
  );
}

function Switches() {
  const [awake, setAwake] = useState(true);
  const state = useWakeLock(awake);
  return (
    <div class="live-switches">
      <label class="switch">
        <input
          type="checkbox"
          checked={sounds.value}
          onChange={(event) => {
            setSounds(event.currentTarget.checked);
          }}
        />
        Beep when all has settled
      </label>
      <label class="switch">
        <input
          type="checkbox"
          checked={awake}
          onChange={(event) => {
            setAwake(event.currentTarget.checked);
          }}
        />
        Keep the screen on
        {awake && state === "not-offered" && (
          <small class="quiet"> (this browser does not do it)</small>
        )}
      </label>
    </div>
  );
}
