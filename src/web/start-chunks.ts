import { build, type Plugin, type Rolldown, type UserConfig } from "vite";

type Chunk = Rolldown.OutputChunk;
type Workers = Readonly<Record<string, readonly string[]>>;

/**
 * Puts all that the first screen needs into a few files: each further file is one more question to a
 * server 60 ms away, six at a time, and one more look into the offline cache.
 *
 * The bundler alone makes a file for every set of screens that shares a module, some sixty. What a screen
 * really uses is known only after unused code was dropped, so the app is bundled twice.
 *
 * @param page    name of the page's entry.
 * @param workers entries that run beside it, by what they do: what they share with the page is apart from
 *                what only the page may run.
 */
export function startChunks(page: string, workers: Workers): Plugin {
  return {
    name: "coldproof-start-chunks",
    async config(config: UserConfig) {
      const names = namesIn(await bundled(config), page, workers);
      const group = (name: string) => ({
        name,
        test: (id: string) => names.get(id) === name,
        // A group takes what its modules need along, unless a group before it did: the most shared first.
        priority: name.length,
      });
      return {
        build: {
          rolldownOptions: {
            output: { codeSplitting: { groups: [...new Set(names.values())].map(group) } },
          },
        },
      };
    },
  };
}

async function bundled({ root, base, define, oxc, build: wanted }: UserConfig): Promise<Chunk[]> {
  const kept = { root, base, define, oxc };
  const sound = Object.entries(kept).filter(([, value]) => value !== undefined);
  const made = await build({
    ...Object.fromEntries(sound),
    configFile: false,
    logLevel: "error",
    publicDir: false,
    build: {
      ...wanted,
      write: false,
      minify: false,
      cssMinify: false,
      reportCompressedSize: false,
    },
  });
  const { output } = (Array.isArray(made) ? made[0] : made) as Rolldown.RolldownOutput;
  return output.filter((one) => one.type === "chunk");
}

/** The file for each module of the first screen: `start`, and the workers that share it. */
function namesIn(
  chunks: readonly Chunk[],
  page: string,
  workers: Workers,
): ReadonlyMap<string, string> {
  const byFile = new Map(chunks.map((chunk) => [chunk.fileName, chunk]));
  const modulesOf = (entry: string): ReadonlySet<string> => {
    const files = new Set(
      chunks.filter((one) => one.isEntry && one.name === entry).map((one) => one.fileName),
    );
    for (const file of files) for (const next of byFile.get(file)?.imports ?? []) files.add(next);
    return new Set([...files].flatMap((file) => byFile.get(file)?.moduleIds ?? []));
  };
  const ofWorkers = Object.entries(workers).map(([name, entries]) => {
    return { name, modules: new Set(entries.flatMap((entry) => [...modulesOf(entry)])) };
  });
  const names = new Map<string, string>();
  for (const id of modulesOf(page)) {
    const sharing = ofWorkers.filter(({ modules }) => modules.has(id)).map(({ name }) => name);
    names.set(id, ["start", ...sharing].join("-"));
  }
  return names;
}
