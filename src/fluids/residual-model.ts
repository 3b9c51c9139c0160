import type { GaussianTerm, PowerTerm, ResidualTerm } from "./residual-term.ts";

/**
 * A residual Helmholtz energy compiled for speed.
 *
 * Power terms are gathered in groups of equal (l, g, d), groups in blocks of equal (l, g): at a
 * fixed temperature a group is one number times δ^d, so a search over density costs groups, not
 * terms. Powers of τ that several terms share are taken once.
 */
export interface ResidualModel {
  /** Distinct exponents t of the power terms. */
  readonly tauExponent: Float64Array;
  /** Per power term: coefficient, exponent t, index into `tauExponent`, group, exponent m. */
  readonly n: Float64Array;
  readonly t: Float64Array;
  readonly tauIndex: Int32Array;
  readonly group: Int32Array;
  readonly m: Float64Array;
  /** Per group: exponent d. */
  readonly d: Int32Array;
  /** Per block: exponent l, factor g, first group; one more entry ends the last block. */
  readonly l: Int32Array;
  readonly g: Float64Array;
  readonly blockStart: Int32Array;
  readonly gaussian: GaussianColumns;
  readonly nonAnalytic: NonAnalyticColumns;
  /** Largest d or l of any term. */
  readonly maxPower: number;
}

export interface GaussianColumns {
  readonly n: Float64Array;
  readonly d: Int32Array;
  readonly t: Float64Array;
  readonly eta: Float64Array;
  readonly epsilon: Float64Array;
  readonly lambda: Float64Array;
  readonly beta: Float64Array;
  readonly gamma: Float64Array;
}

export interface NonAnalyticColumns {
  readonly n: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly beta: Float64Array;
  readonly A: Float64Array;
  readonly B: Float64Array;
  readonly C: Float64Array;
  readonly D: Float64Array;
}

/** Scratch and results of one evaluation; owned by the caller, one per thread of work. */
export interface ResidualWork {
  tau: number;
  /** τ^t of the distinct exponents. */
  readonly tauPower: Float64Array;
  /** Coefficients of δ-factors and their first and second τ-derivatives, groups then gaussians. */
  readonly c0: Float64Array;
  readonly c1: Float64Array;
  readonly c2: Float64Array;
  readonly deltaPower: Float64Array;
  /** Results, indexed by `A00` … `A20`. */
  readonly A: Float64Array;
}

interface FlatPower {
  readonly n: number;
  readonly d: number;
  readonly t: number;
  readonly l: number;
  readonly g: number;
  readonly m: number;
}

/**
 * Compiles terms for {@link setTau} and the evaluations at a density.
 *
 * @param terms  Any mixture of kinds; also a departure function of a mixture model.
 */
export function compileResidual(terms: readonly ResidualTerm[]): ResidualModel {
  const powers = terms.flatMap((term) => (term.type === "power" ? flatten(term) : []));
  powers.sort((x, y) => x.l - y.l || x.g - y.g || x.d - y.d);
  const tauExponent = [...new Set(powers.map((term) => term.t))];
  const groups: FlatPower[] = [];
  const blocks: { l: number; g: number; start: number }[] = [];
  const group = powers.map((term) => {
    const last = groups.at(-1);
    const sameBlock = last?.l === term.l && last.g === term.g;
    if (!sameBlock) blocks.push({ l: term.l, g: term.g, start: groups.length });
    if (!sameBlock || last.d !== term.d) groups.push(term);
    return groups.length - 1;
  });
  const gaussian = gaussianColumns(terms.filter((term) => term.type === "gaussian"));
  return {
    tauExponent: Float64Array.from(tauExponent),
    n: Float64Array.from(powers, (term) => term.n),
    t: Float64Array.from(powers, (term) => term.t),
    tauIndex: Int32Array.from(powers, (term) => tauExponent.indexOf(term.t)),
    group: Int32Array.from(group),
    m: Float64Array.from(powers, (term) => term.m),
    d: Int32Array.from(groups, (term) => term.d),
    l: Int32Array.from(blocks, (block) => block.l),
    g: Float64Array.from(blocks, (block) => block.g),
    blockStart: Int32Array.from([...blocks.map((block) => block.start), groups.length]),
    gaussian,
    nonAnalytic: nonAnalyticColumns(terms),
    maxPower: Math.max(1, ...groups.map((term) => Math.max(term.d, term.l)), ...gaussian.d),
  };
}

/** Scratch that fits a model. */
export function createResidualWork(model: ResidualModel): ResidualWork {
  const factors = model.d.length + model.gaussian.n.length;
  return {
    tau: 0,
    tauPower: new Float64Array(model.tauExponent.length),
    c0: new Float64Array(factors),
    c1: new Float64Array(factors),
    c2: new Float64Array(factors),
    deltaPower: new Float64Array(model.maxPower + 1),
    A: new Float64Array(7),
  };
}

function flatten(term: PowerTerm): FlatPower[] {
  // Where l = 0 there is no exponential, whatever g says: one block holds all of those.
  return term.n.map((n, k) => ({
    n,
    d: term.d[k],
    t: term.t[k],
    l: term.l[k],
    g: term.l[k] === 0 ? 0 : term.g[k],
    m: term.m[k],
  }));
}

function gaussianColumns(terms: readonly GaussianTerm[]): GaussianColumns {
  const column = (key: Exclude<keyof GaussianTerm, "type">): Float64Array =>
    Float64Array.from(terms.flatMap((term) => term[key]));
  return {
    n: column("n"),
    d: Int32Array.from(column("d")),
    t: column("t"),
    eta: column("eta"),
    epsilon: column("epsilon"),
    lambda: column("lambda"),
    beta: column("beta"),
    gamma: column("gamma"),
  };
}

function nonAnalyticColumns(terms: readonly ResidualTerm[]): NonAnalyticColumns {
  const parts = terms.filter((term) => term.type === "nonAnalytic");
  const column = (key: "n" | "a" | "b" | "beta" | "A" | "B" | "C" | "D"): Float64Array =>
    Float64Array.from(parts.flatMap((term) => term[key]));
  return {
    n: column("n"),
    a: column("a"),
    b: column("b"),
    beta: column("beta"),
    A: column("A"),
    B: column("B"),
    C: column("C"),
    D: column("D"),
  };
}
