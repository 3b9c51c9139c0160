/**
 * How much room a text takes, without a screen to ask. Widths err on the wide side: a system face
 * such as DejaVu Sans runs about a tenth wider than most, and a label that is clipped is worse than a gap.
 */

/** Mean advance of a character in ems. */
const ADVANCE = 0.61;

export const textWidth = (text: string, size: number): number => [...text].length * size * ADVANCE;

/** Where a text of this width may be centred so that it stays between two edges. */
export function clampedCentre(centre: number, width: number, from: number, to: number): number {
  const half = width / 2;
  return to - from < width ? (from + to) / 2 : Math.min(Math.max(centre, from + half), to - half);
}

/** The text with an ellipsis where it would leave its room. */
export function cut(text: string, size: number, room: number): string {
  const letters = [...text];
  const most = Math.floor(room / (size * ADVANCE));
  if (letters.length <= most) return text;
  return `${letters
    .slice(0, Math.max(1, most - 1))
    .join("")
    .trimEnd()}…`;
}

/** Rounded for the page: a hundredth of a pixel is finer than any screen. */
export const px = (value: number): number => Math.round(value * 100) / 100;

/**
 * Moves labels apart along a line, each as little as its neighbours allow; order is kept.
 * @param wanted Where each label would like to stand, ascending not required.
 */
export function spread(
  wanted: readonly number[],
  distance: number,
  from: number,
  to: number,
): number[] {
  const order = wanted.map((at, i) => ({ at, i })).sort((a, b) => a.at - b.at);
  let last = from - distance;
  for (const label of order) {
    label.at = Math.max(label.at, last + distance);
    last = label.at;
  }
  let next = to + distance;
  for (const label of [...order].reverse()) {
    label.at = Math.min(label.at, next - distance);
    next = label.at;
  }
  const placed = [...wanted];
  for (const { at, i } of order) placed[i] = at;
  return placed;
}
