import { createHash } from "node:crypto";
import type { MiddlewareHandler } from "hono";
import { reportStyle } from "../report/index.ts";
import { refusal } from "./answers.ts";

/**
 * Every page in a browser can send requests to this machine and to the shop's network. Three checks keep
 * other sites out: the name they used, where a write comes from, and a body type that a plain form cannot
 * send.
 */
const ownNames = new Set(["127.0.0.1", "localhost", "[::1]"]);

/** Is this one of the names by which a machine calls itself? */
export function isOwnName(name: string): boolean {
  return ownNames.has(name);
}

/**
 * Refuses a name that is not ours: a foreign name that resolves to this machine would be same-origin.
 *
 * @param more names and addresses under which the server is shared.
 */
export function onlyNames(more: readonly string[]): MiddlewareHandler {
  const names = new Set([...ownNames, ...more.map((name) => name.toLowerCase())]);
  return async (c, next) => {
    const host = c.req.header("host") ?? new URL(c.req.url).host;
    if (!names.has(nameOf(host))) {
      return refusal(403, "foreign-host", `this server answers to ${[...names].join(", ")} only`);
    }
    await next();
    return undefined;
  };
}

/** A host without its port, in lower case. */
export function nameOf(host: string): string {
  return host.replace(/:\d*$/, "").toLowerCase();
}

const reads = new Set(["GET", "HEAD", "OPTIONS"]);

/** Refuses a write from another site, or in a form that a browser sends without asking first. */
export const onlyOwnWrites: MiddlewareHandler = async (c, next) => {
  if (!reads.has(c.req.method)) {
    const origin = c.req.header("origin");
    const host = c.req.header("host") ?? new URL(c.req.url).host;
    const from = origin?.toLowerCase().replace(/^https?:\/\//, "");
    const own = origin === undefined || (from === host.toLowerCase() && from !== origin);
    if (!own || c.req.header("sec-fetch-site") === "cross-site") {
      return refusal(403, "foreign-origin", "only the app's own pages may write here");
    }
    // A form cannot send DELETE, and another site may not without asking first.
    if (c.req.method === "DELETE") return next();
    const type = c.req.header("content-type")?.split(";")[0]?.trim().toLowerCase();
    if (type !== "application/json") {
      return refusal(415, "not-json", "send JSON, with content-type application/json");
    }
  }
  await next();
  return undefined;
};

const reportHash = createHash("sha256").update(reportStyle).digest("base64");

/**
 * What the app needs and nothing more: no script or style but our own files, no other site at all. A report that the
 * app made is shown in a sandboxed frame, which inherits this policy: its style sheet is allowed by its hash.
 */
const appPolicy = [
  "default-src 'self'",
  `style-src 'self' 'sha256-${reportHash}'`,
  "frame-src 'self' blob:",
  "img-src 'self' data: blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

/** Adds the headers that every answer has; a handler that set its own policy keeps it. */
export const strictHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  const headers = c.res.headers;
  if (!headers.has("content-security-policy")) headers.set("content-security-policy", appPolicy);
  if (!headers.has("cache-control")) headers.set("cache-control", "no-store");
  headers.set("x-content-type-options", "nosniff");
  headers.set("referrer-policy", "no-referrer");
  headers.set("cross-origin-opener-policy", "same-origin");
  headers.set("cross-origin-resource-policy", "same-origin");
};
