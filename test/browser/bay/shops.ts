import { calculations, compute } from "../../../src/calculations/index.ts";
import { createApp, listen, readSite } from "../../../src/server/index.ts";
import { offerPairing, openSqliteStore, openWorkspace } from "../../../src/store/index.ts";

/** One server for two shops, as an operator runs it, with the app in a folder. */
export async function twoShops(app: string) {
  const opened = await openSqliteStore(":memory:");
  if (opened.kind !== "opened") throw new Error(opened.detail);
  const { store } = opened;
  const handle = createApp({
    calculations,
    compute,
    store,
    site: readSite([{ prefix: "/", folder: app }]),
    report: () => Promise.resolve(""),
    sharing: { address: () => "", names: [], trustLoopback: false, behindProxy: false },
    onFault: (error) => {
      throw new Error("fault", { cause: error });
    },
  });
  const server = await listen(handle, { port: 0, exact: true });
  if (server.kind !== "listening") throw new Error(server.reason);
  const shop = async (name: string) => {
    const { workspace } = await openWorkspace(store.access, name, new Date());
    const log = store.in(workspace.id);
    return {
      /** A code that pairs one device. */
      code: async () => {
        const wanted = { workspace: workspace.id, role: "tester", name: "phone" } as const;
        return (await offerPairing(store.access, wanted, new Date())).code;
      },
      /** Texts and titles of all of its entries. */
      texts: async () => {
        const trials = await log.trials();
        const logs = await Promise.all(trials.map(({ trial }) => log.read(trial)));
        return logs
          .flatMap(({ events }) => events.map(({ body }) => body as Record<string, unknown>))
          .map(({ text, title }) => text ?? title);
      },
    };
  };
  return {
    url: server.url,
    shops: [await shop("Alpha"), await shop("Beta")] as const,
    stop: async () => {
      await server.stop();
      await store.close();
    },
  };
}
