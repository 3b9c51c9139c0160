import type { CliDeps } from "./deps.ts";
import { exit, type Exit } from "./exit.ts";
import { outputOn } from "./output.ts";
import { dataPath, fail, withStore } from "./trial.ts";

const usualPort = 4780;

/** `serve`: until it is told to stop. A port that was asked for is taken or refused, never replaced. */
export async function serve(
  deps: CliDeps,
  options: { port?: string; data?: string },
): Promise<Exit> {
  const wanted = options.port ?? deps.env["PORT"];
  const port = wanted === undefined ? usualPort : portOf(wanted);
  if (port === undefined) {
    return fail(
      deps,
      `port ${wanted ?? ""} is no port; accepted is a whole number from 0 to 65535.`,
    );
  }
  return withStore(deps, options.data, async (store) => {
    const server = await deps.startServer(store, { port, exact: wanted !== undefined });
    if (server.kind === "refused") {
      const why = server.reason === "port-taken" ? "is taken" : "is not allowed for this user";
      return fail(deps, `port ${server.port} ${why}. Name another one with --port.`);
    }
    const output = outputOn(deps.stdout);
    await output.write(
      `Coldproof is at ${server.url}\nThe log is in ${dataPath(deps, options.data)}\nStop with Ctrl-C.\n`,
    );
    await deps.untilStopped();
    await server.stop();
    await output.write("Stopped.\n");
    return exit.done;
  });
}

function portOf(text: string): number | undefined {
  const port = Number(text);
  return /^\d{1,5}$/.test(text) && port <= 65_535 ? port : undefined;
}
