/** A linear program in our own words. Everything the optimiser asks goes through this shape. */
export interface LinearProgram {
  /** Names only label answers; they never become solver keys. */
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly sense: 'min' | 'max';
  /** One coefficient a column. */
  readonly objective: readonly number[];
}

export interface Column {
  readonly name: string;
  /** Default 0. Use -Infinity for a free column. */
  readonly lower?: number | undefined;
  /** Default Infinity. */
  readonly upper?: number | undefined;
  /** Only `solveMilp` heeds it; `solveLp` solves the relaxation. */
  readonly integer?: boolean;
}

/** low <= sum(coefficients * x) <= high; an equality has low === high. */
export interface Row {
  readonly name: string;
  /** One coefficient a column (dense). */
  readonly coefficients: readonly number[];
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  /**
   * Natural size of the row's right side (> 0), for weighing how far it is missed; default max(|low|,|high|,0.01).
   * Give it for rows whose right side is zero (ratios): such rows have no scale of their own.
   */
  readonly scale?: number | undefined;
}

/** A row over other columns. Made by the thousand, so written out: see the decisions in DEVELOPERS.md. */
export const rowWith = ({ name, low, high, scale }: Row, coefficients: readonly number[]): Row => ({
  name,
  coefficients,
  low,
  high,
  scale,
});

/** Optimal within the tolerances of certify.ts, proven by prices in the arithmetic of the original rows. */
export interface OptimalAnswer {
  readonly status: 'optimal';
  readonly x: readonly number[];
  readonly objective: number;
  /** Dual price of each row (d objective / d binding side), sign for the program as stated. */
  readonly rowPrices: readonly number[];
  /** Reduced cost of each column, sign for the program as stated. */
  readonly reducedCosts: readonly number[];
  /**
   * Only when asked for (`ranges: true`) and the row binds: how far the binding side may move, up and down,
   * before another set of rows binds and the price may change. undefined where no range is at hand.
   */
  readonly priceRanges?: readonly (PriceRange | undefined)[];
  readonly effort: Effort;
}

/** The binding side of a row may lie anywhere in [from, to] with the row's price unchanged. */
export interface PriceRange {
  readonly from: number;
  readonly to: number;
}

export interface InfeasibleAnswer {
  readonly status: 'infeasible';
  /**
   * Farkas multipliers, one a row (sign: >0 uses the low side, <0 the high side) and one a column bound (>0 uses
   * the lower bound, <0 the upper). Together they cancel every column: for each j, sum_i rowProof[i] a[i][j] +
   * columnProof[j] = 0, while the used sides add up to more than 0. All zero if `crossed` is given.
   */
  readonly rowProof: readonly number[];
  readonly columnProof: readonly number[];
  /** The whole proof, when one row or column has its low side above its high side. */
  readonly crossed?: { readonly row: number } | { readonly column: number };
  readonly effort: Effort;
}

export interface UnboundedAnswer {
  readonly status: 'unbounded';
  /** A feasible direction along which the objective improves without end. */
  readonly ray: readonly number[];
  /** A feasible point to start from. */
  readonly point: readonly number[];
  readonly effort: Effort;
}

/** No certificate could be had. Never treated as infeasible and never as an answer. */
export interface UncertifiedAnswer {
  readonly status: 'uncertified';
  readonly reason: string;
  readonly effort: Effort;
}

export type LpAnswer = OptimalAnswer | InfeasibleAnswer | UnboundedAnswer | UncertifiedAnswer;

/** How the answer was come by: which rung of the retry ladder was certified, and how many pivots it took in all. */
export interface Effort {
  /** 0: the first answer held. */
  readonly rung: number;
  /** The rung in words, such as 'first' or 'shuffled, 1e-9'. */
  readonly rungName: string;
  readonly pivots: number;
  /** Tries stopped at the pivot cap (endless loops of the pivot engine). */
  readonly capped: number;
}
