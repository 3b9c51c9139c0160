/**
 * Knows HTTP: the log, the calculations and the app's files as one function from request to response, who
 * may ask, and the socket that serves it. Must never know SQL, physics or another door.
 */
export { createApp } from "./app.ts";
export { type AsideAnswer, type AsideRequest, workAside } from "./aside.ts";
export { pairingUrl } from "./access.ts";
export type { ServerDeps, Sharing } from "./deps.ts";
export { listen } from "./listen.ts";
export { readSite } from "./site.ts";
export { eventsOf } from "./trials.ts";
