import type Database from "better-sqlite3";
import type { News } from "./log-store.ts";

/** How often the file is looked at while somebody follows, ms. */
const every = 1000;

/**
 * News of other processes on the same file. SQLite cannot tell them, but it counts the commits of others
 * (`data_version`), which costs microseconds to ask; only when the count has changed are the ends of the trials compared.
 *
 * @param follow tells this process's own news.
 * @param hear   takes news from elsewhere.
 */
export function sqliteNews(
  sqlite: Database.Database,
  follow: (listener: (news: News) => void) => () => void,
  hear: (news: News) => void,
) {
  const known = new Map<string, number>();
  let version: unknown;
  let timer: NodeJS.Timeout | undefined;
  let unfollow = () => {};
  let followers = 0;

  /** Remembers what there is; gives what was not known. */
  const learn = (): readonly News[] => {
    const fresh = newsIn(sqlite).filter((news) => cursorOf(news) > (known.get(keyOf(news)) ?? 0));
    for (const news of fresh) known.set(keyOf(news), cursorOf(news));
    return fresh;
  };
  const look = (tell: (news: News) => void) => {
    try {
      const now = sqlite.pragma("data_version", { simple: true });
      if (now === version) return;
      learn().forEach(tell);
      version = now;
    } catch {
      // Another process holds the file: the next look tells it.
    }
  };
  const start = () => {
    look(() => undefined);
    unfollow = follow((news) => known.set(keyOf(news), cursorOf(news)));
    timer = setInterval(look, every, hear).unref();
  };
  const end = () => {
    clearInterval(timer);
    unfollow();
    known.clear();
    version = undefined;
  };
  return {
    follow: (listener: (news: News) => void) => {
      if (followers++ === 0) start();
      const stop = follow(listener);
      let stopped = false;
      return () => {
        if (stopped) return;
        stopped = true;
        stop();
        if (--followers === 0) end();
      };
    },
    end,
  };
}

function newsIn(sqlite: Database.Database): readonly News[] {
  const trials = sqlite.prepare<[], { workspace: string; trial: string; cursor: number }>(
    "select workspace, id as trial, last_seq as cursor from trial where last_seq > 0",
  );
  const devices = sqlite.prepare<[], { device: string }>(
    "select id as device from device where revoked is not null",
  );
  return [
    ...trials.all().map((row) => ({ kind: "appended", ...row }) as const),
    ...devices.all().map((row) => ({ kind: "revoked", ...row }) as const),
  ];
}

function keyOf(news: News): string {
  return news.kind === "appended" ? `${news.workspace} ${news.trial}` : news.device;
}

function cursorOf(news: News): number {
  return news.kind === "appended" ? news.cursor : 1;
}
