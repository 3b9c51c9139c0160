import { expect } from "vitest";

/** Half a unit of the last printed digit of a number. */
export function printedTolerance(text: string): number {
  const match = /^[+-]?\d*\.?(?<decimals>\d*)(?:[eE](?<exponent>[+-]?\d+))?$/.exec(text.trim());
  if (!match || !text.includes(".")) return 0.5;
  const decimals = match.groups?.decimals?.length ?? 0;
  return 0.5 * 10 ** (Number(match.groups?.exponent ?? 0) - decimals);
}

expect.extend({
  toMatchPrinted(received: number, printed: string) {
    // A printed digit may have been rounded either way from a value right at the half.
    const tolerance = printedTolerance(printed) * (1 + 1e-9);
    const difference = Math.abs(received - Number(printed));
    return {
      pass: difference <= tolerance,
      message: () =>
        `${String(received)} differs from the printed ${printed} by ${String(difference)}, accepted is ${String(tolerance)}`,
    };
  },
});

declare module "vitest" {
  // The parameter must repeat vitest's own for the interfaces to merge.
  // eslint-disable-next-line @typescript-eslint/no-unused-vars
  interface Matchers<T> {
    /** Equal to a printed number within half a unit of its last digit. */
    toMatchPrinted(printed: string): void;
  }
}
