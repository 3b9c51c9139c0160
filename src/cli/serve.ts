import { readFileSync } from "node:fs";
import { createSecureContext } from "node:tls";
import { renderUnicodeCompact } from "uqr";
import {
  hashOfSecret,
  homeWorkspace,
  isPostgres,
  type LogStore,
  offerPairing,
} from "../store/index.ts";
import type { CliDeps, Listening, Sharing, Where } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { dataPath, fail, withStore } from "./trial.ts";

const usualPort = 4780;
/** What a request's header can carry; a shorter secret could be found by trying. */
const soundSecret = /^[\w.~+/=-]{24,200}$/;

export interface ServeOptions {
  readonly port?: string;
  readonly data?: string;
  readonly lan?: boolean;
  readonly host?: string;
  readonly address?: string;
  readonly behindProxy?: boolean;
  readonly cert?: string;
  readonly key?: string;
}

/** `serve`: until it is told to stop. A port that was asked for is taken or refused, never replaced. */
export async function serve(deps: CliDeps, options: ServeOptions): Promise<Exit> {
  const wanted = options.port ?? deps.env["PORT"];
  const port = wanted === undefined ? usualPort : portOf(wanted);
  if (port === undefined) {
    return fail(
      deps,
      `port ${wanted ?? ""} is no port; accepted is a whole number from 0 to 65535.`,
    );
  }
  const tls = tlsOf(options);
  if (typeof tls === "string") return fail(deps, tls);
  const bound = { port };
  const sharing = sharingOf(deps, options, bound);
  if (typeof sharing === "string") return fail(deps, sharing);
  const host = options.host ?? (options.lan === true ? "0.0.0.0" : undefined);
  const where: Where = {
    ...{ port, exact: wanted !== undefined },
    ...(host === undefined ? {} : { host }),
    ...(tls === undefined ? {} : { tls }),
    ...(sharing === undefined ? {} : { sharing }),
  };
  return withStore(deps, options.data, async (store) => {
    const server = await deps.startServer(store, where);
    if (server.kind === "refused") {
      const why = server.reason === "port-taken" ? "is taken" : "is not allowed for this user";
      return fail(deps, `port ${server.port} ${why}. Name another one with --port.`);
    }
    bound.port = server.port;
    await greet(deps, { store, server, sharing, lan: options.lan === true });
    await deps.untilStopped();
    await server.stop();
    await outputOn(deps.stdout).write("Stopped.\n");
    return exit.done;
  });
}

async function greet(
  deps: CliDeps,
  {
    store,
    server,
    sharing,
    lan,
  }: {
    readonly store: LogStore;
    readonly server: Extract<Listening, { kind: "listening" }>;
    readonly sharing: Sharing | undefined;
    readonly lan: boolean;
  },
): Promise<void> {
  const lines = [`Coldproof is at ${server.url}`, `The log is in ${store.path}`];
  if (sharing !== undefined) lines.push(`Paired devices reach it at ${sharing.address()}`);
  if (sharing !== undefined && !sharing.trustLoopback) {
    lines.push("Every device needs to be paired. See: coldproof workspace --help");
  } else if (sharing !== undefined && lan) {
    const offer = { workspace: homeWorkspace, role: "tester", name: "phone" } as const;
    const { code } = await offerPairing(store.access, offer, new Date(deps.now()));
    const url = `${sharing.address()}/#/pair/${code}`;
    lines.push("", renderUnicodeCompact(url, { border: 4 }), "");
    lines.push(`Read this with a phone, or open ${url}`);
    lines.push("The code pairs one device as a tester, within 10 minutes.");
  }
  await outputOn(deps.stdout).write([...lines, "Stop with Ctrl-C.", ""].join("\n"));
}

/** A sentence says what is wrong. */
function tlsOf({ cert, key }: ServeOptions): Where["tls"] | string {
  if (cert === undefined && key === undefined) return undefined;
  if (cert === undefined || key === undefined) return "https needs both --cert and --key.";
  const tls = { cert: textOf(cert), key: textOf(key) };
  if (tls.cert === undefined || tls.key === undefined) {
    return `${tls.cert === undefined ? cert : key} cannot be read. Check its name.`;
  }
  try {
    createSecureContext(tls);
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return `${cert} and ${key} are no certificate and its key in PEM (${why}).`;
  }
  return { cert: tls.cert, key: tls.key };
}

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, "utf8");
  } catch {
    return undefined;
  }
}

/** Undefined: for this machine's one user only. A sentence says what is wrong. */
function sharingOf(
  deps: CliDeps,
  options: ServeOptions,
  bound: { readonly port: number },
): Sharing | string | undefined {
  const shop = isPostgres(dataPath(deps, options.data));
  const { lan = false, host, address, behindProxy = false } = options;
  if (!shop && !lan && !behindProxy && host === undefined && address === undefined)
    return undefined;
  const own =
    host !== undefined && host !== "0.0.0.0" ? [host] : lan || host ? deps.addresses() : [];
  if (lan && own.length === 0) {
    return "this machine has no address in a network. Connect it, or name one with --host.";
  }
  const given = address === undefined ? undefined : hostOf(address);
  if (address !== undefined && given === undefined) {
    return `${address} is no address; accepted is one such as https://coldproof.example.org`;
  }
  const secret = deps.env["COLDPROOF_OPERATOR_SECRET"];
  if (secret !== undefined && !soundSecret.test(secret)) {
    return "COLDPROOF_OPERATOR_SECRET needs 24 to 200 letters, digits or signs of . _ ~ + / = -";
  }
  const scheme = options.cert === undefined ? "http" : "https";
  return {
    address: () =>
      address?.replace(/\/$/, "") ?? `${scheme}://${own[0] ?? "127.0.0.1"}:${bound.port}`,
    names: given === undefined ? own : [...own, given],
    trustLoopback: !shop && !behindProxy,
    behindProxy,
    ...(secret === undefined ? {} : { operatorHash: hashOfSecret(secret) }),
  };
}

function hostOf(address: string): string | undefined {
  try {
    const { protocol, hostname } = new URL(address);
    return /^https?:$/.test(protocol) ? hostname : undefined;
  } catch {
    return undefined;
  }
}

function portOf(text: string): number | undefined {
  const port = Number(text);
  return /^\d{1,5}$/.test(text) && port <= 65_535 ? port : undefined;
}
