import { createServer as createTlsServer } from "node:https";
import { type Http2Bindings, type HttpBindings, type ServerType, serve } from "@hono/node-server";
import type { Handle } from "./app.ts";

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

export interface Where {
  /** The wanted port; 0 lets the system choose. */
  readonly port: number;
  /** Refuses when the port is taken, instead of taking the next free one. */
  readonly exact: boolean;
  /** Address to listen on; loopback only without it. */
  readonly host?: string;
  /** Certificate and key in PEM: https. */
  readonly tls?: { readonly cert: string; readonly key: string };
}

/** Serves until it is stopped; on loopback unless a host is named. */
export async function listen(handle: Handle, where: Where): Promise<ListenOutcome> {
  const { port, exact } = where;
  const last = exact ? port : Math.min(port + tries, 65_535);
  for (let at = port; ; at++) {
    const outcome = await listenAt(handle, { ...where, port: at });
    const taken = outcome.kind === "refused" && outcome.reason === "port-taken";
    if (!taken || at >= last) return outcome;
  }
}

function listenAt(handle: Handle, { port, host = "127.0.0.1", tls }: Where) {
  const fetch = (request: Request, { incoming }: HttpBindings | Http2Bindings) =>
    handle(request, { address: incoming.socket.remoteAddress ?? "" });
  const secure = tls === undefined ? {} : { createServer: createTlsServer, serverOptions: tls };
  return new Promise<ListenOutcome>((resolve, reject) => {
    const server = serve({ fetch, hostname: host, port, ...secure }, ({ port: bound }) => {
      resolve({
        kind: "listening",
        url: `${tls === undefined ? "http" : "https"}://127.0.0.1:${bound}`,
        port: bound,
        stop: () => stop(server),
      });
    });
    server.on("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EADDRINUSE") resolve({ kind: "refused", reason: "port-taken", port });
      else if (error.code === "EACCES" || error.code === "EADDRNOTAVAIL")
        resolve({ kind: "refused", reason: "not-allowed", port });
      else reject(error);
    });
  });
}

/** How long requests under way may take when the server stops, ms; live streams never end by themselves. */
const patience = 1_500;

/** Finishes the requests under way; idle connections of a browser are not waited for. */
function stop(server: ServerType): Promise<void> {
  return new Promise((resolve) => {
    const last = setTimeout(() => {
      if ("closeAllConnections" in server) server.closeAllConnections();
    }, patience);
    server.close(() => {
      clearTimeout(last);
      resolve();
    });
    if ("closeIdleConnections" in server) server.closeIdleConnections();
  });
}
