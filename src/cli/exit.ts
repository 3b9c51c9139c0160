/**
 * What the process ends with; README.md lists them.
 *
 * - `done` 0: answered, written, served and stopped.
 * - `failed` 1: wrong use, or something is in the way (a file, a port, the disk, a conflict in the log).
 * - `invalid` 2: the input cannot be used; the issues say why.
 * - `noAnswer` 3: the input is in order, and physics or numerics have no answer to it.
 * - `unsound` 4: a report that was checked does not hold.
 */
export const exit = { done: 0, failed: 1, invalid: 2, noAnswer: 3, unsound: 4 } as const;
export type Exit = (typeof exit)[keyof typeof exit];
