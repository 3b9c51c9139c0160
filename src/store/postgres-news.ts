import type { Client, Pool } from "pg";
import type { News } from "./log-store.ts";

const channel = "coldproof_news";
/** News that come within so many milliseconds go in one message. */
const gather = 20;
/** PostgreSQL takes 8000 bytes in a message; a piece of news has some 150. */
const mostInOne = 40;
/** Waits before a broken connection is tried again, ms. */
const firstWait = 200;
const longestWait = 10_000;

/**
 * News between processes by NOTIFY and LISTEN. Sent after the commit and in a statement of its own:
 * inside the transaction it would make all commits of the server wait for one another.
 */
export function postgresNews(connect: () => Client, pool: Pool) {
  const own = Math.random().toString(36).slice(2);
  let waiting = new Map<string, News>();
  let timer: NodeJS.Timeout | undefined;
  let client: Client | undefined;
  let ended = false;

  const send = async () => {
    timer = undefined;
    const news = [...waiting.values()];
    waiting = new Map();
    for (let i = 0; i < news.length; i += mostInOne) {
      const text = JSON.stringify({ from: own, news: news.slice(i, i + mostInOne) });
      // Lost when the database is away; whoever follows looks for himself from time to time.
      await pool.query("select pg_notify($1, $2)", [channel, text]).catch(() => undefined);
    }
  };
  const listen = async (hear: (news: News) => void, wait = firstWait): Promise<void> => {
    if (ended) return;
    const fresh = connect();
    client = fresh;
    let broken = false;
    const retry = () => {
      if (broken || ended) return;
      broken = true;
      fresh.end().catch(() => undefined);
      setTimeout(() => void listen(hear, Math.min(2 * wait, longestWait)), wait).unref();
    };
    fresh.on("error", retry);
    fresh.on("end", retry);
    fresh.on("notification", ({ payload }) => {
      for (const news of fromOthers(payload ?? "", own)) hear(news);
    });
    try {
      await fresh.connect();
      await fresh.query(`listen ${channel}`);
      wait = firstWait;
    } catch {
      retry();
    }
  };
  return {
    listen: (hear: (news: News) => void) => listen(hear),
    tell: (news: readonly News[]) => {
      for (const one of news) waiting.set(keyOf(one), one);
      timer ??= setTimeout(() => void send(), gather);
    },
    end: async () => {
      ended = true;
      clearTimeout(timer);
      if (waiting.size > 0) await send();
      await client?.end().catch(() => undefined);
    },
  };
}

/** Of one trial only the newest cursor matters. */
function keyOf(news: News): string {
  return news.kind === "appended" ? `${news.workspace} ${news.trial}` : `revoked ${news.device}`;
}

/** Only processes of this version write there, but anybody with the database's password could. */
function fromOthers(payload: string, own: string): readonly News[] {
  try {
    const { from, news } = JSON.parse(payload) as { from: string; news: News[] };
    return from === own ? [] : news;
  } catch {
    return [];
  }
}
