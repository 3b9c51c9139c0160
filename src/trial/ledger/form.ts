import type { Measured } from "../view.ts";

/**
 * A mass as a value and how far it leans on each independent input (a weighing, a declaration, an
 * estimate): `terms` holds sensitivity × standard uncertainty per input. What leans on one input
 * twice is then counted once, and the sums over all accounts stay exact in uncertainty too.
 *
 * Source: JCGM 100 (GUM) 5.1, law of propagation for uncorrelated inputs.
 */
export interface Form {
  /** kg */
  readonly value: number;
  readonly terms: ReadonlyMap<string, number>;
}

export const zero: Form = { value: 0, terms: new Map() };

/** One independent input. @param input  Its name, unique in the log. */
export const input = (name: string, value: number, u: number): Form => ({
  value,
  terms: new Map([[name, u]]),
});

/** a + factor · b */
export function plus(a: Form, b: Form, factor = 1): Form {
  const terms = new Map(a.terms);
  for (const [name, term] of b.terms) {
    const sum = (terms.get(name) ?? 0) + factor * term;
    if (sum === 0) terms.delete(name);
    else terms.set(name, sum);
  }
  return { value: a.value + factor * b.value, terms };
}

export const scaled = (form: Form, factor: number): Form => plus(zero, form, factor);

/** Standard uncertainty, kg. */
export function uncertainty(form: Form): number {
  let sum = 0;
  for (const term of form.terms.values()) sum += term * term;
  return Math.sqrt(sum);
}

export const measured = (form: Form): Measured => ({ value: form.value, u: uncertainty(form) });

export const total = (forms: Iterable<Form>): Form => {
  let sum = zero;
  for (const form of forms) sum = plus(sum, form);
  return sum;
};
