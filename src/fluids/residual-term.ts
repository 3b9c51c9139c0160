/** Columns of one group of terms of a residual Helmholtz energy, as printed; all equally long. */
export type ResidualTerm = PowerTerm | GaussianTerm | NonAnalyticTerm;

/** n·δ^d·τ^t·exp(−g·δ^l − τ^m); δ^l is absent where l = 0, τ^m where m = 0; d, l whole numbers. */
export interface PowerTerm {
  readonly type: "power";
  readonly n: readonly number[];
  readonly d: readonly number[];
  readonly t: readonly number[];
  readonly l: readonly number[];
  readonly g: readonly number[];
  readonly m: readonly number[];
}

/** n·δ^d·τ^t·exp(−η(δ−ε)² − λδ − β(τ−γ)²). */
export interface GaussianTerm {
  readonly type: "gaussian";
  readonly n: readonly number[];
  readonly d: readonly number[];
  readonly t: readonly number[];
  readonly eta: readonly number[];
  readonly epsilon: readonly number[];
  readonly lambda: readonly number[];
  readonly beta: readonly number[];
  readonly gamma: readonly number[];
}

/** n·Δ^b·δ·Ψ, the terms of the critical region; see `addNonAnalytic`. */
export interface NonAnalyticTerm {
  readonly type: "nonAnalytic";
  readonly n: readonly number[];
  readonly a: readonly number[];
  readonly b: readonly number[];
  readonly beta: readonly number[];
  readonly A: readonly number[];
  readonly B: readonly number[];
  readonly C: readonly number[];
  readonly D: readonly number[];
}
