export interface SearchOptions {
  /** Boxes looked at before giving up. */
  readonly nodeLimit: number;
  /** Pivots made before giving up likewise. */
  readonly pivotLimit?: number | undefined;
  /** Relative; boxes that cannot beat the best point by more are closed. */
  readonly gap: number;
  readonly shouldStop: () => boolean;
  readonly keepLeaves: boolean;
  /** A first point; ignored unless it holds. */
  readonly start?: Float64Array;
}

/** A closed box with its proof; the boxes of all leaves together tile the integer box of the program. */
export interface Leaf {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** 'bound': by these row prices nothing in the box is better; 'infeasible': by these multipliers it is empty. */
  readonly why: 'bound' | 'infeasible';
  readonly rows: Float64Array;
}

/** What every search says, however it ended. */
export interface Searched {
  readonly best: { readonly x: Float64Array; readonly cost: number } | undefined;
  /** Proven: no point that is whole where it must be costs less. */
  readonly bound: number;
  readonly nodes: number;
  readonly programs: number;
  readonly mended: number;
  readonly pivots: number;
  readonly leaves: readonly Leaf[];
}

export type Ended = {
  readonly end: 'exhausted' | 'node-limit' | 'asked' | 'uncertified';
  /** An integer column whose bounds hold no whole number. */
  readonly emptyColumn?: number;
};

type Unbounded = {
  readonly end: 'unbounded';
  readonly direction: { readonly point: Float64Array; readonly ray: Float64Array };
};

export type SearchResult = Searched & (Ended | Unbounded);
