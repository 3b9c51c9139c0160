/** Opens the app without a network. One cache per build; a new build waits until the user takes it. */
interface Waiting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Told extends Event {
  readonly data: unknown;
}
interface Scope {
  addEventListener(type: "install" | "activate", act: (event: Waiting) => void): void;
  addEventListener(type: "fetch", act: (event: Fetching) => void): void;
  addEventListener(type: "message", act: (event: Told) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
}

/** The build writes its files and their fingerprint here. */
const files: ReadonlySet<string> = new Set(JSON.parse("__FILES__") as string[]);
const cacheName = "coldproof __BUILD__";
const scope = self as unknown as Scope;

scope.addEventListener("install", (event) => {
  event.waitUntil(caches.open(cacheName).then((cache) => cache.addAll([...files])));
});

scope.addEventListener("activate", (event) => {
  event.waitUntil(dropOthers().then(() => scope.clients.claim()));
});

scope.addEventListener("message", (event) => {
  if (event.data === "take-over") void scope.skipWaiting();
});

scope.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate" && url.pathname === "/") event.respondWith(kept("/", request));
  else if (files.has(url.pathname)) event.respondWith(kept(url.pathname, request));
});

/** Opened once while the worker runs: a page asks for several files at a time. */
let cache: Promise<Cache> | undefined;

async function kept(path: string, request: Request): Promise<Response> {
  cache ??= caches.open(cacheName);
  return (await (await cache).match(path)) ?? fetch(request);
}

async function dropOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== cacheName).map((name) => caches.delete(name)));
}
