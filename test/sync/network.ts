/** What becomes of one message: it and its answer. */
export type Fate =
  | "delivered"
  /** The server never hears of it. */
  | "lost"
  /** The server acts; the device never hears the answer. */
  | "answer-lost"
  /** The server gets it twice. */
  | "doubled"
  /** The device gives up; the server gets it later, among the others. */
  | "late";

/** A network that does what fate says, then what is over for messages that come after. */
export function network(handle: (request: Request) => Promise<Response>, fates: Iterator<Fate>) {
  const delayed: Request[] = [];
  const gone = () => Promise.reject(new TypeError("no connection"));
  const fetch = async (request: Request): Promise<Response> => {
    const next = fates.next();
    const fate = next.done === true ? "delivered" : next.value;
    if (delayed.length > 0 && fate !== "lost") {
      const late = delayed.shift();
      if (late) await handle(late);
    }
    switch (fate) {
      case "delivered":
        return handle(request);
      case "lost":
        return gone();
      case "answer-lost":
        await handle(request);
        return gone();
      case "doubled":
        await handle(request.clone());
        return handle(request);
      case "late":
        delayed.push(request);
        return gone();
    }
  };
  /** Delivers what is still on its way. */
  const settle = async () => {
    for (const late of delayed.splice(0)) await handle(late);
  };
  return { fetch, settle };
}
