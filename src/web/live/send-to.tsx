import type { TraceView } from "../../trial/index.ts";

interface Props {
  readonly trial: string;
  readonly trace: TraceView;
}

/** Where an instrument sends: the command, and the address for a program of one's own. */
export function SendTo({ trial, trace }: Props) {
  const order = trace.series.map(({ column }) => column).join(", ");
  return (
    <details class="live-send">
      <summary>Where the instrument sends to</summary>
      <p>
        Values in the order of the columns: <strong>{order}</strong>. One line a sample, with or
        without its time before them.
      </p>
      <code>
        coldproof stream --server {location.origin} --trial {trial} --stream {trace.id}
      </code>
      <p class="quiet">
        Or send batches to {location.origin}/api/trials/{trial}/streams/{trace.id}/samples, as
        docs/streaming.md says.
      </p>
    </details>
  );
}
