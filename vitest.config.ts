import { defineConfig } from "vitest/config";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    include: ["src/**/*.test.{ts,tsx}", "test/**/*.test.ts"],
    // The report carries its style sheets as text; without this they would arrive empty.
    css: true,
    exclude: ["test/campaign/**"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
});
