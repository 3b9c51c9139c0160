import { type ServerType, serve } from "@hono/node-server";

export type ListenOutcome =
  | {
      readonly kind: "listening";
      readonly url: string;
      readonly port: number;
      stop(): Promise<void>;
    }
  | {
      readonly kind: "refused";
      readonly reason: "port-taken" | "not-allowed";
      readonly port: number;
    };

/** How many ports after the first one are tried. */
const tries = 50;

/**
 * Serves on loopback only.
 *
 * @param port  the wanted port; 0 lets the system choose.
 * @param exact refuses when the port is taken, instead of taking the next free one.
 */
export async function listen(
  handle: (request: Request) => Promise<Response>,
  { port, exact }: { port: number; exact: boolean },
): Promise<ListenOutcome> {
  const last = exact ? port : Math.min(port + tries, 65_535);
  for (let at = port; ; at++) {
    const outcome = await listenAt(handle, at);
    const taken = outcome.kind === "refused" && outcome.reason === "port-taken";
    if (!taken || at >= last) return outcome;
  }
}

function listenAt(handle: (request: Request) => Promise<Response>, port: number) {
  return new Promise<ListenOutcome>((resolve, reject) => {
    const server = serve({ fetch: handle, hostname: "127.0.0.1", port }, ({ port: bound }) => {
      resolve({
        kind: "listening",
        url: `http://127.0.0.1:${bound}`,
        port: bound,
        stop: () => stop(server),
      });
    });
    server.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EADDRINUSE") resolve({ kind: "refused", reason: "port-taken", port });
      else if (error.code === "EACCES") resolve({ kind: "refused", reason: "not-allowed", port });
      else reject(error);
    });
  });
}

/** Finishes the requests under way; idle connections of a browser are not waited for. */
function stop(server: ServerType): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => {
      resolve();
    });
    if ("closeIdleConnections" in server) server.closeIdleConnections();
  });
}
