/** A value inside a JSON document, with the path that leads to it. */
export interface Place {
  readonly path: string;
  readonly value: unknown;
}

/** Opens an object: the answer gives the place of a key. */
export function recordAt(place: Place): (key: string) => Place {
  const { path, value } = place;
  if (typeof value !== "object" || value === null || Array.isArray(value)) {
    throw new Error(`${path}: an object is accepted`);
  }
  return (key) => ({
    path: path === "" ? key : `${path}.${key}`,
    value: (value as Readonly<Record<string, unknown>>)[key],
  });
}

/** Places of the entries of a list. */
export function recordsAt(place: Place): readonly Place[] {
  if (!Array.isArray(place.value)) throw new Error(`${place.path}: a list is accepted`);
  return place.value.map((value: unknown, k) => ({ path: `${place.path}[${k}]`, value }));
}

export function textAt({ path, value }: Place): string {
  if (typeof value !== "string") throw new Error(`${path}: text is accepted`);
  return value;
}

export function numberAt({ path, value }: Place): number {
  if (typeof value !== "number" || !Number.isFinite(value)) {
    throw new Error(`${path}: a finite number is accepted`);
  }
  return value;
}

export function numbersAt(place: Place): readonly number[] {
  return recordsAt(place).map(numberAt);
}

/** Columns of numbers, all as long as the first one named. */
export function columnsOf<Key extends string>(
  place: Place,
  keys: readonly Key[],
): Readonly<Record<Key, readonly number[]>> {
  const at = recordAt(place);
  const columns = {} as Record<Key, readonly number[]>;
  let length: number | undefined;
  for (const key of keys) {
    const column = numbersAt(at(key));
    length ??= column.length;
    if (column.length !== length) {
      throw new Error(`${place.path}.${key}: found ${column.length} numbers, accepted ${length}`);
    }
    columns[key] = column;
  }
  return columns;
}
