/** A component and its mass fraction. */
export interface MassShare {
  readonly name: string;
  /** 0 to 1. */
  readonly fraction: number;
}

/** Fractions as whole or tenth percents: what a reader compares, not what was computed. */
export function percentText(fraction: number): string {
  const percent = 100 * fraction;
  if (percent > 0 && percent < 0.1) return "<0.1 %";
  return `${percent >= 10 || percent === 0 ? percent.toFixed(0) : percent.toFixed(1)} %`;
}

export const compositionText = (shares: readonly MassShare[]): string =>
  shares.map(({ name, fraction }) => `${name} ${percentText(fraction)}`).join(", ");
