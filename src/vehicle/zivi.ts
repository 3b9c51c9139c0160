/** Ratio c of Zivi's void fraction α = 1/(1 + c(1 − x)/x): slip is the cube root of the density ratio. */
export function ziviRatio(rhoL: number, rhoV: number): number {
  const root = Math.cbrt(rhoV / rhoL);
  return root * root;
}

/**
 * Void fraction with Zivi's slip.
 *
 * Source: Zivi, J. Heat Transfer 86 (1964) 247
 */
export const ziviVoid = (x: number, rhoL: number, rhoV: number): number =>
  x / (x + ziviRatio(rhoL, rhoV) * (1 - x));

/**
 * Mean density between two qualities of a zone in which quality runs evenly with area, kg/m³:
 * the void fraction integrated in closed form.
 */
export function meanDensity(x1: number, x2: number, rhoL: number, rhoV: number): number {
  const c = ziviRatio(rhoL, rhoV);
  const k = 1 - c;
  const dx = x2 - x1;
  let alpha: number;
  if (Math.abs(dx) < 1e-5) {
    const x = 0.5 * (x1 + x2);
    alpha = x / (c + k * x);
  } else alpha = 1 / k - (c / (k * k * dx)) * Math.log((c + k * x2) / (c + k * x1));
  return alpha * rhoV + (1 - alpha) * rhoL;
}
