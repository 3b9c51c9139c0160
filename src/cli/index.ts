/**
 * Knows the terminal: arguments, streams, exit codes and sentences for people. Must never know HTTP,
 * SQL or physics; a server to start is handed in, so that no door knows another.
 */
export type { CliDeps, Listening, StartServer } from "./deps.ts";
export { runCli } from "./program.ts";
