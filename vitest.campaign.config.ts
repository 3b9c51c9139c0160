import { defineConfig } from "vitest/config";

// Long surveys, run by hand before a release: `npm run campaign`.
export default defineConfig({
  test: { include: ["test/campaign/**/*.campaign.test.ts"], testTimeout: 600_000 },
});
