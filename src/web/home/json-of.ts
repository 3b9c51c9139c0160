/** The value a text spells, or undefined when it is no JSON: the reader of the file then says what it wants. */
export function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
