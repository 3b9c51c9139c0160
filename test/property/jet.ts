/**
 * A number with its derivatives in two variables to second order: [f, f_x, f_y, f_xx, f_xy, f_yy].
 *
 * Arithmetic on these carries derivatives along exactly, which makes an independent check of
 * derivatives worked out by hand. Slow, for tests only.
 */
export type Jet = readonly [number, number, number, number, number, number];

export function constant(value: number): Jet {
  return [value, 0, 0, 0, 0, 0];
}

export const variable = {
  x: (value: number): Jet => [value, 1, 0, 0, 0, 0],
  y: (value: number): Jet => [value, 0, 1, 0, 0, 0],
};

export function add(...terms: readonly Jet[]): Jet {
  const sum = [0, 0, 0, 0, 0, 0];
  for (const term of terms) for (const [k, value] of term.entries()) sum[k] = (sum[k] ?? 0) + value;
  return sum as unknown as Jet;
}

export function scale(a: Jet, factor: number): Jet {
  return a.map((value) => value * factor) as unknown as Jet;
}

export function multiply(a: Jet, b: Jet): Jet {
  return [
    a[0] * b[0],
    a[1] * b[0] + a[0] * b[1],
    a[2] * b[0] + a[0] * b[2],
    a[3] * b[0] + 2 * a[1] * b[1] + a[0] * b[3],
    a[4] * b[0] + a[1] * b[2] + a[2] * b[1] + a[0] * b[4],
    a[5] * b[0] + 2 * a[2] * b[2] + a[0] * b[5],
  ];
}

export function exp(a: Jet): Jet {
  const e = Math.exp(a[0]);
  return chain(a, e, e, e);
}

export function log(a: Jet): Jet {
  return chain(a, Math.log(a[0]), 1 / a[0], -1 / a[0] ** 2);
}

export function power(a: Jet, exponent: number): Jet {
  return chain(
    a,
    a[0] ** exponent,
    exponent === 0 ? 0 : exponent * a[0] ** (exponent - 1),
    exponent * (exponent - 1) === 0 ? 0 : exponent * (exponent - 1) * a[0] ** (exponent - 2),
  );
}

function chain(a: Jet, value: number, slope: number, bend: number): Jet {
  return [
    value,
    slope * a[1],
    slope * a[2],
    bend * a[1] * a[1] + slope * a[3],
    bend * a[1] * a[2] + slope * a[4],
    bend * a[2] * a[2] + slope * a[5],
  ];
}
