import type { LogStore } from "../store/index.ts";
import { refusal } from "./answers.ts";
import type { Asker } from "./identify.ts";

/** A line between news, so that both sides notice a dead connection, ms. */
const heartbeat = 15_000;
/** Streams of one process, and of one device: a screen or two, and those that have not yet noticed their end. */
const mostStreams = 2_000;
const mostOfDevice = 8;

/**
 * `GET /api/live?trial=`: server-sent events about one workspace, `appended` with a trial and its newest
 * cursor. Of a trial that grows faster than the reader reads, only the newest cursor is kept, so memory
 * stays bounded. Ends when the device is revoked.
 */
export function liveStreams(store: LogStore) {
  let open = 0;
  const ofDevice = new Map<string, number>();

  const enter = (device: string): (() => void) => {
    open++;
    ofDevice.set(device, (ofDevice.get(device) ?? 0) + 1);
    let left = false;
    return () => {
      if (left) return;
      left = true;
      open--;
      const rest = (ofDevice.get(device) ?? 1) - 1;
      if (rest > 0) ofDevice.set(device, rest);
      else ofDevice.delete(device);
    };
  };

  return (asker: Asker, trial: string | undefined): Response => {
    const counted = asker.keyed ? asker.device.id : "";
    const own = asker.keyed ? (ofDevice.get(counted) ?? 0) : 0;
    if (open >= mostStreams || own >= mostOfDevice) {
      return refusal(429, "too-many", "too many live connections; close another one first");
    }
    const body = streamFor(store, asker, { trial, leave: enter(counted) });
    return new Response(body, {
      headers: { "content-type": "text/event-stream", "x-accel-buffering": "no" },
    });
  };
}

/** What waits to be read: the newest cursor of each trial, or a heartbeat. */
function streamFor(
  store: LogStore,
  asker: Asker,
  { trial, leave }: { trial: string | undefined; leave: () => void },
): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const waiting = new Map<string, number>();
  let beat = true;
  let controller: ReadableStreamDefaultController<Uint8Array> | undefined;
  let stop = () => {};

  const flush = () => {
    if (controller === undefined || (controller.desiredSize ?? 0) <= 0) return;
    if (waiting.size === 0 && !beat) return;
    const lines = Array.from(waiting, ([id, cursor]) => {
      return `event: appended\ndata: ${JSON.stringify({ trial: id, cursor })}\n\n`;
    });
    controller.enqueue(encoder.encode(lines.join("") + (beat ? ": still here\n\n" : "")));
    waiting.clear();
    beat = false;
  };
  const end = () => {
    stop();
    leave();
  };
  return new ReadableStream({
    start: (started) => {
      controller = started;
      const unfollow = store.follow((news) => {
        if (news.kind === "revoked") {
          if (!asker.keyed || news.device !== asker.device.id) return;
          end();
          started.close();
        } else if (news.workspace === asker.workspace && (trial ?? news.trial) === news.trial) {
          waiting.set(news.trial, Math.max(news.cursor, waiting.get(news.trial) ?? 0));
          flush();
        }
      });
      const timer = setInterval(() => {
        beat = true;
        flush();
      }, heartbeat);
      timer.unref();
      stop = () => {
        unfollow();
        clearInterval(timer);
      };
      flush();
    },
    pull: flush,
    cancel: end,
  });
}
