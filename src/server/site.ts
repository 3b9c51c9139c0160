import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { gzipSync } from "node:zlib";

export interface SiteFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
  readonly tag: string;
}

/** The app's files by URL path, read once: small, and no request can name any other file. */
export type Site = ReadonlyMap<string, SiteFile>;

const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".csv": "text/csv; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
};

/**
 * Reads folders into a site.
 *
 * @param folders URL prefix (with a slash at its end) and folder; a folder that is missing adds nothing.
 */
export function readSite(folders: readonly { prefix: string; folder: string }[]): Site {
  const site = new Map<string, SiteFile>();
  for (const { prefix, folder } of folders) {
    if (!existsSync(folder)) continue;
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
      if (!entry.isFile()) continue;
      const path = join(entry.parentPath, entry.name);
      const url =
        prefix +
        path
          .slice(folder.length)
          .replace(/^[\\/]/, "")
          .replaceAll("\\", "/");
      const bytes = new Uint8Array(readFileSync(path));
      const tag = `"${createHash("sha256").update(bytes).digest("base64url").slice(0, 22)}"`;
      site.set(url, { bytes, type: types[extname(path)] ?? "application/octet-stream", tag });
    }
  }
  return site;
}

/**
 * Answers a request for a file of the app. A path without an extension is a place within the app and
 * gets its page.
 *
 * @returns undefined when there is no such file.
 */
export function siteAnswer(site: Site, request: Request): Response | undefined {
  const { pathname } = new URL(request.url);
  const isPlace = !/\.[^/]*$/.test(pathname);
  const path = site.has(pathname) ? pathname : isPlace ? "/index.html" : undefined;
  const file = path === undefined ? undefined : site.get(path);
  if (path === undefined || file === undefined) return undefined;
  // Built assets carry a hash in their name; everything else must be asked for again.
  const lasting = /^\/assets\/.+-[\w-]{8}\.\w+$/.test(path);
  const headers = {
    "content-type": file.type,
    "cache-control": lasting ? "public, max-age=31536000, immutable" : "no-cache",
    etag: file.tag,
  };
  if (request.headers.get("if-none-match") === file.tag) {
    return new Response(null, { status: 304, headers });
  }
  if (!isPacked(file.type) || !takesGzip(request)) return new Response(file.bytes, { headers });
  return new Response(packedBytes(file), {
    headers: { ...headers, "content-encoding": "gzip", vary: "accept-encoding" },
  });
}

/** Texts shrink to a third or less; pictures are packed already. */
const isPacked = (type: string): boolean => /^text\/|json|javascript|svg/.test(type);
const takesGzip = (request: Request): boolean =>
  /\bgzip\b/.test(request.headers.get("accept-encoding") ?? "");

/** Packed when first asked for, and kept: a phone on the bay's network waits for bytes, not for the server. */
const packed = new WeakMap<SiteFile, Uint8Array<ArrayBuffer>>();

function packedBytes(file: SiteFile): Uint8Array<ArrayBuffer> {
  const known = packed.get(file);
  if (known) return known;
  const bytes = new Uint8Array(gzipSync(file.bytes, { level: 9 }));
  packed.set(file, bytes);
  return bytes;
}
