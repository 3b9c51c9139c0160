import type { StageView } from "../../trial/index.ts";
import { view } from "../shell/log-keeper.ts";
import { LiveStream } from "./live-stream.tsx";
import { OpenStream } from "./open-stream.tsx";

interface Props {
  readonly trial: string;
  readonly stage: StageView;
}

/** Instruments that send as they read: the newest stream of this stage, or the way to open one. */
export function LiveBoard({ trial, stage }: Props) {
  const mine = view.value.traces.filter(
    (trace) => trace.stream && trace.stage === stage.stage && trace.round === stage.round,
  );
  const newest = mine.at(-1);
  return (
    <section class="live" aria-labelledby="live">
      <h2 id="live">Instruments that send as they read</h2>
      {newest && <LiveStream key={newest.id} trial={trial} stage={stage} trace={newest} />}
      <OpenStream key={mine.length} trial={trial} stage={stage} another={newest !== undefined} />
    </section>
  );
}
