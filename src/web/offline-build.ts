import { createHash } from "node:crypto";
import type { Plugin } from "vite";

/** Writes the list of built files into the service worker, so that it can keep them all. */
export function offlineBuild(publicFiles: readonly string[]): Plugin {
  return {
    name: "coldproof-offline",
    generateBundle: {
      // After the page was written: an entry that only names others is not kept as a file.
      order: "post",
      handler(_options, bundle) {
        const built = Object.keys(bundle).filter((name) => name.startsWith("assets/"));
        const files = ["/", ...[...built, ...publicFiles].map((name) => `/${name}`)];
        const worker = bundle["sw.js"];
        if (worker?.type !== "chunk") throw new Error("the build made no service worker");
        const list = JSON.stringify(files);
        const page = Object.values(bundle).map((one) =>
          one.type === "chunk" ? one.code : one.source,
        );
        const print = createHash("sha256")
          .update(page.map(String).join())
          .digest("hex")
          .slice(0, 12);
        worker.code = worker.code
          .replace(/(["'`])__FILES__\1/, JSON.stringify(list))
          .replace("__BUILD__", print);
      },
    },
  };
}
