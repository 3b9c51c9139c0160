/**
 * How much room a text takes, without a screen to ask. Widths err on the wide side: a system face
 * such as DejaVu Sans runs about a tenth wider than most, and a label that is clipped is worse than a gap.
 */

/** Advance of a letter in ems, by its kind. */
function advance(letter: string): number {
  if (/[\u202f\u2009]/.test(letter)) return 0.25;
  if (/[ilj.,:;'|!()\s]/.test(letter)) return 0.4;
  if (/[WM@%—→]/.test(letter)) return 1;
  if (/[mw±+−=]/.test(letter)) return 0.95;
  if (/[A-Z]/.test(letter)) return 0.74;
  if (/[ -\u024f]/.test(letter)) return 0.64;
  // Scripts with wide letters: each takes a full em.
  return 1;
}

export const textWidth = (text: string, size: number): number =>
  size * Array.from(text).reduce((sum, letter) => sum + advance(letter), 0);

/** Where a text of this width may be centred so that it stays between two edges. */
export function clampedCentre(centre: number, width: number, from: number, to: number): number {
  const half = width / 2;
  return to - from < width ? (from + to) / 2 : Math.min(Math.max(centre, from + half), to - half);
}

/** The text with an ellipsis where it would leave its room; never less than one letter. */
export function cut(text: string, size: number, room: number): string {
  if (textWidth(text, size) <= room) return text;
  const letters = Array.from(text);
  let kept = letters.length;
  while (kept > 1 && textWidth(letters.slice(0, kept).join(""), size) + size > room) kept--;
  return `${letters.slice(0, kept).join("").trimEnd()}…`;
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
