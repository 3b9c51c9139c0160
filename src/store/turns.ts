/** Lets other requests have their turn. */
export function turn(): Promise<void> {
  return new Promise((next) => setImmediate(next));
}

/** Long work in slices, with a turn for other requests after each. */
export async function inTurns<T>(work: Iterator<void, T>): Promise<T> {
  let step = work.next();
  for (; step.done !== true; step = work.next()) await turn();
  return step.value;
}

/** The same work without a pause. */
export function atOnce<T>(work: Iterator<void, T>): T {
  let step = work.next();
  while (step.done !== true) step = work.next();
  return step.value;
}
