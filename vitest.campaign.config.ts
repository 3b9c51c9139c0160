import { configDefaults, defineConfig } from "vitest/config";
import { builtOnce, css, jsx } from "./vitest.config.ts";

/** Long runs that look for rare faults; `npm test` runs a shorter form of each. */
export default defineConfig({
  oxc: { jsx },
  test: {
    css,
    include: ["test/campaign/**/*.campaign.test.ts"],
    exclude: configDefaults.exclude,
    globalSetup: builtOnce,
    maxWorkers: 2,
    testTimeout: 3_600_000,
    hookTimeout: 600_000,
  },
});
