import { configDefaults, defineConfig } from "vitest/config";

/** Tests that start processes, browsers or databases' folders of their own. */
const house = ["test/{browser,kill,process,scripts,sync}/**/*.test.ts"];
const rooms = ["src/**/*.test.{ts,tsx}", "test/**/*.test.ts"];
/** One build of the app for all of them. */
export const builtOnce = "test/browser/walk/build-once.ts";
const campaigns = "test/campaign/**";

export const jsx = { runtime: "automatic", importSource: "preact" } as const;
/** The report carries its style sheets as text; without this they would arrive empty. */
export const css = true;

export default defineConfig({
  oxc: { jsx },
  test: {
    css,
    // One worker on two cores would leave one idle while a browser is waited for.
    maxWorkers: 2,
    // A small machine that writes a report, reads it again and walks through it needs most of a minute.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    projects: [
      {
        extends: true,
        test: {
          name: "rooms",
          include: rooms,
          exclude: [...configDefaults.exclude, campaigns, ...house],
          // Fluids and vehicles are read once for all files: they hold no state that a test could leave behind.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: "house",
          include: house,
          exclude: [...configDefaults.exclude, campaigns],
          globalSetup: builtOnce,
        },
      },
    ],
  },
});
