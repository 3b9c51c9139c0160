import { configDefaults, defineConfig } from "vitest/config";
import base from "./vitest.config.ts";

/** Long runs that look for rare faults; `npm test` runs a shorter form of each. */
export default defineConfig({
  ...base,
  test: {
    ...base.test,
    include: ["test/campaign/**/*.campaign.test.ts"],
    exclude: configDefaults.exclude,
    testTimeout: 3_600_000,
    hookTimeout: 600_000,
  },
});
