import { defineConfig } from "vite";

/** The app. `vite build --config src/web/vite.config.ts` writes dist/web. */
export default defineConfig({
  root: import.meta.dirname,
  base: "/",
  publicDir: "public",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    // The page forbids data: addresses, so nothing may be folded into the style sheet.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
  },
});
