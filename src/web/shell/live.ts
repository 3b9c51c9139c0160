/** What a follower is told. */
interface Listener {
  /** Something was appended on the server. */
  readonly onNews: () => void;
  /** Does the line stand? */
  readonly onState: (live: boolean) => void;
}

/** Pauses before the line is tried again, ms; the last one is repeated. */
const pauses = [1000, 2000, 5000, 15_000, 30_000];
/** News that come close together are one reason to look. */
const together = 250;
/** A server says something at least this often; silence for longer means that the line is dead, ms. */
const silence = 90_000;

/**
 * Follows the server's news under a key, and tries again whenever the line breaks.
 *
 * Server-sent events over `fetch`, because the browser's own reader of them cannot send a key.
 *
 * @returns a function that ends it.
 */
export function follow(key: string | undefined, { onNews, onState }: Listener): () => void {
  const ended = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const news = (): void => {
    timer ??= setTimeout(() => {
      timer = undefined;
      onNews();
    }, together);
  };
  void keepLine({ key, news, onState, ended: ended.signal });
  return () => {
    ended.abort();
    clearTimeout(timer);
  };
}

interface Line {
  readonly key: string | undefined;
  readonly news: () => void;
  readonly onState: (live: boolean) => void;
  readonly ended: AbortSignal;
}

async function keepLine(line: Line): Promise<void> {
  for (let tries = 0; ; tries++) {
    const stood = await oneLine(line).catch(() => false);
    if (line.ended.aborted) return;
    line.onState(false);
    if (stood) {
      // Whatever was told while the line was down was not heard.
      line.news();
      tries = 0;
    }
    await pause(pauses[Math.min(tries, pauses.length - 1)] ?? 0, line.ended);
  }
}

/** One line until it breaks; true when it stood at all. */
async function oneLine({ key, news, onState, ended }: Line): Promise<boolean> {
  const broken = new AbortController();
  const signal = AbortSignal.any([ended, broken.signal]);
  const headers = { accept: "text/event-stream", ...(key && { authorization: `Bearer ${key}` }) };
  const answer = await fetch("/api/live", { headers, signal });
  if (!answer.ok || !answer.body) return false;
  onState(true);
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let watch = setTimeout(() => {
    broken.abort();
  }, silence);
  const read = newsIn();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      clearTimeout(watch);
      if (done) return true;
      watch = setTimeout(() => {
        broken.abort();
      }, silence);
      if (read(value)) news();
    }
  } catch {
    return true;
  } finally {
    clearTimeout(watch);
  }
}

/** Reads pieces of the stream as they come; true when an `appended` event ended in this piece. */
export function newsIn(): (piece: string) => boolean {
  let rest = "";
  return (piece) => {
    const parts = (rest + piece).split(/\r?\n\r?\n/);
    rest = parts.pop() ?? "";
    return parts.some((event) => /^event: ?appended\s*$/m.test(event));
  };
}

const pause = (ms: number, ended: AbortSignal): Promise<void> =>
  new Promise((resolve) => {
    const over = (): void => {
      clearTimeout(timer);
      ended.removeEventListener("abort", over);
      resolve();
    };
    const timer = setTimeout(over, ms);
    ended.addEventListener("abort", over);
  });
