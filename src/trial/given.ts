type Optional<T> = { [K in keyof T]: undefined extends T[K] ? K : never }[keyof T];

/** The same fields without those that are undefined: absent and undefined are two things here. */
export function given<T extends object>(
  fields: T,
): Omit<T, Optional<T>> & { readonly [K in Optional<T>]?: Exclude<T[K], undefined> } {
  const present = Object.entries(fields).filter(([, value]) => value !== undefined);
  // Removing undefined fields is what the return type says; `fromEntries` cannot know the keys.
  return Object.fromEntries(present) as ReturnType<typeof given<T>>;
}
