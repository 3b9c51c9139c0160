import { configDefaults, defineConfig } from "vitest/config";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    include: ["src/**/*.test.{ts,tsx}", "test/**/*.test.ts"],
    exclude: [...configDefaults.exclude, "test/campaign/**"],
    // The report carries its style sheets as text; without this they would arrive empty.
    css: true,
    // One worker on two cores would leave one idle while a browser is waited for.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
