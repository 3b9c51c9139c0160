/**
 * Reads a QR code from the pixels of a picture that stands upright, as ISO/IEC 18004 lays it out (structure and tables
 * from memory). It knows level M up to version 10 and texts in bytes, corrects nothing, and takes no code whose error
 * correction does not agree.
 */
export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** One brightness a pixel, 0 to 255, row by row. */
  readonly grey: readonly number[];
}

type Matrix = readonly (readonly boolean[])[];

/** Level M: error-correcting words a block, blocks, and data words of the shorter blocks. */
const blocksOfM: readonly (readonly [number, number, number])[] = [
  [10, 1, 16],
  [16, 1, 28],
  [26, 1, 44],
  [18, 2, 32],
  [24, 2, 43],
  [16, 4, 27],
  [18, 4, 31],
  [22, 4, 38],
  [22, 5, 36],
  [26, 5, 43],
];

export function readCode(pixels: Pixels): string {
  const matrix = modulesOf(pixels);
  const n = matrix.length;
  const version = (n - 17) / 4;
  const blocks = blocksOfM[version - 1];
  if (!Number.isInteger(version) || !blocks) throw new RangeError(`${n} modules are no code`);
  const { level, mask } = formatOf(matrix);
  if (level !== 0) throw new RangeError(`level ${level} is not M`);
  return textOf(dataWords(wordsOf(matrix, version, mask), blocks));
}

/** The dark bounds are the code; a finder's upper edge is seven modules long. */
function modulesOf({ width, height, grey }: Pixels): Matrix {
  const dark = (x: number, y: number): boolean => (grey[y * width + x] ?? 255) < 128;
  const rows = range(height).filter((y) => range(width).some((x) => dark(x, y)));
  const columns = range(width).filter((x) => range(height).some((y) => dark(x, y)));
  const [top = 0, left = 0] = [rows[0], columns[0]];
  const side = (columns.at(-1) ?? 0) - left + 1;
  let edge = 0;
  while (dark(left + edge, top)) edge++;
  const n = Math.round(side / (edge / 7));
  const at = (k: number): number => Math.floor(((k + 0.5) * side) / n);
  return range(n).map((y) => range(n).map((x) => dark(left + at(x), top + at(y))));
}

const range = (n: number): number[] => Array.from({ length: n }, (_, i) => i);

function formatOf(matrix: Matrix): { level: number; mask: number } {
  const places = [
    ...range(6).map((i) => [8, i] as const),
    ...([
      [8, 7],
      [8, 8],
      [7, 8],
    ] as const),
    ...range(6).map((i) => [5 - i, 8] as const),
  ];
  const bits = places.reduce((sum, [x, y], i) => sum | (Number(matrix[y]?.[x]) << i), 0) ^ 0x5412;
  return { level: bits >> 13, mask: (bits >> 10) & 7 };
}

const masks: readonly ((x: number, y: number) => number)[] = [
  (x, y) => (x + y) % 2,
  (_, y) => y % 2,
  (x) => x % 3,
  (x, y) => (x + y) % 3,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2,
  (x, y) => ((x * y) % 2) + ((x * y) % 3),
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2,
];

/** Finders with their formats, timing, alignment and version: no data. */
function isFixed(x: number, y: number, version: number): boolean {
  const n = 17 + 4 * version;
  const far = n - 8;
  if ((x < 9 && y < 9) || (x >= far && y < 9) || (x < 9 && y >= far)) return true;
  if (x === 6 || y === 6) return true;
  if (version >= 7 && ((x >= n - 11 && y < 6) || (y >= n - 11 && x < 6))) return true;
  const last = n - 7;
  const centres = version === 1 ? [] : version < 7 ? [6, last] : [6, (6 + last) / 2, last];
  return centres.some((cx) =>
    centres.some(
      (cy) =>
        Math.abs(x - cx) <= 2 &&
        Math.abs(y - cy) <= 2 &&
        !((cx === 6 && cy === 6) || (cx === 6 && cy === last) || (cx === last && cy === 6)),
    ),
  );
}

/** Two columns at a time, up and down, from the right. */
function wordsOf(matrix: Matrix, version: number, mask: number): number[] {
  const n = matrix.length;
  const bits: number[] = [];
  let up = true;
  for (let right = n - 1; right > 0; right -= 2, up = !up) {
    if (right === 6) right = 5;
    for (const step of range(n)) {
      const y = up ? n - 1 - step : step;
      for (const x of [right, right - 1]) {
        if (isFixed(x, y, version)) continue;
        const inverted = masks[mask]?.(x, y) === 0;
        bits.push(Number(matrix[y]?.[x] === true) ^ Number(inverted));
      }
    }
  }
  return range(Math.floor(bits.length / 8)).map((k) => number(bits.slice(8 * k, 8 * k + 8)));
}

const number = (bits: readonly number[]): number => bits.reduce((sum, bit) => 2 * sum + bit, 0);

/** Words lie one of each block in turn; each block's check words have to agree. */
function dataWords(
  words: readonly number[],
  [check, count, short]: readonly [number, number, number],
): number[] {
  const longer = words.length - count * (short + check);
  const blocks: number[][] = range(count).map(() => []);
  let next = 0;
  for (const k of range(short + 1)) {
    for (const block of range(count)) {
      if (k === short && block < count - longer) continue;
      blocks[block]?.push(words[next++] ?? 0);
    }
  }
  const data = blocks.flat();
  for (let k = 0; k < check; k++) for (const block of blocks) block.push(words[next++] ?? 0);
  if (!blocks.every((block) => agrees(block, check))) throw new RangeError("check words disagree");
  return data;
}

/** Reed and Solomon over the field of 256 elements with x⁸ + x⁴ + x³ + x² + 1: every syndrome is zero. */
const agrees = (block: readonly number[], check: number): boolean =>
  range(check).every((power) => {
    const root = range(power).reduce((value) => times(value, 2), 1);
    return block.reduce((sum, word) => times(sum, root) ^ word, 0) === 0;
  });

function times(a: number, b: number): number {
  let product = 0;
  for (const bit of range(8).reverse()) {
    product = (product << 1) ^ (product & 128 ? 0x11d : 0);
    if ((b >> bit) & 1) product ^= a;
  }
  return product;
}

/** A text in bytes: its kind in 4 bits, its length in 8 or, from version 10 on, in 16. */
function textOf(words: readonly number[]): string {
  const bits = words.flatMap((word) => range(8).map((k) => (word >> (7 - k)) & 1));
  if (number(bits.slice(0, 4)) !== 4) throw new RangeError("not a text in bytes");
  const wide = words.length > 182 ? 16 : 8;
  const length = number(bits.slice(4, 4 + wide));
  const bytes = range(length).map((k) => {
    const from = 4 + wide + 8 * k;
    return number(bits.slice(from, from + 8));
  });
  return new TextDecoder("utf-8", { fatal: true }).decode(Uint8Array.from(bytes));
}
