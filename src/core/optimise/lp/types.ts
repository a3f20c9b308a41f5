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
  readonly lower?: number;
  /** Default Infinity. */
  readonly upper?: number;
  readonly integer?: boolean;
}

/** low <= sum(coefficients * x) <= high; an equality has low === high. */
export interface Row {
  readonly name: string;
  /** One coefficient a column (dense). */
  readonly coefficients: readonly number[];
  readonly low?: number;
  readonly high?: number;
  /** Natural size of the row's right side, for weighing how far it is missed; default max(|low|,|high|,0.01). */
  readonly scale?: number;
}

/** What a certificate proves, in the arithmetic of the original rows. */
export interface OptimalAnswer {
  readonly status: 'optimal';
  readonly x: readonly number[];
  readonly objective: number;
  /** Dual price of each row (d objective / d binding side), sign for the program as stated. */
  readonly rowPrices: readonly number[];
  /** Reduced cost of each column. */
  readonly reducedCosts: readonly number[];
  readonly effort: Effort;
}

export interface InfeasibleAnswer {
  readonly status: 'infeasible';
  /** Farkas multipliers, one a row (sign: >0 uses the low side, <0 the high side) and one a column bound. */
  readonly rowProof: readonly number[];
  readonly columnProof: readonly number[];
  readonly effort: Effort;
}

export interface UnboundedAnswer {
  readonly status: 'unbounded';
  /** A feasible direction along which the objective improves without end. */
  readonly ray: readonly number[];
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
  readonly rung: number;
  readonly pivots: number;
}
