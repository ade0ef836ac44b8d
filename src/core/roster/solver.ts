/** A start for the solver: values of some columns by index. */
export interface Start {
  readonly columns: readonly number[];
  readonly values: readonly number[];
}

export interface SolveOptions {
  /** Stops after this long with the best found so far, seconds. */
  readonly time_s: number;
  /** Stops when the best found is within this share of the bound. */
  readonly gap: number;
  /** What to start from; null = nothing known. */
  readonly start: Start | null;
}

/** What came out, and how long it took, seconds. */
export type Solved = Outcome & { readonly took_s: number };

type Outcome =
  | {
      readonly state: 'solved';
      /** Value of every column. */
      readonly values: ArrayLike<number>;
      readonly objective: number;
      /** No solution has a higher objective. */
      readonly bound: number;
    }
  /** Time was up before any solution was found; `bound` as above. */
  | { readonly state: 'none found'; readonly bound: number }
  | { readonly state: 'infeasible' }
  | { readonly state: 'failed'; readonly message: string };

/**
 * Solves a program that is to be maximised, in CPLEX LP text. Without whole columns the values may lie
 * inside, so that what could be nothing is merely small.
 */
export interface Solver {
  solve(lp: string, options: SolveOptions): Promise<Solved>;
}
