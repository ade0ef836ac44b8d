import type { SolveOptions, Solved } from '../../core/roster/solver.ts';

/** To the thread that solves. `careful`: without presolve, which is slower and has fewer faults. */
export interface SolverAsked {
  readonly lp: string;
  readonly options: SolveOptions;
  readonly careful: boolean;
}

export type SolverReplied = Solved;

/** A thread with a solver in it. It answers one question at a time. */
export interface SolverPort {
  readonly ask: (asked: SolverAsked) => void;
  /** Called once for what it answers; `broken` when the thread fails. */
  readonly listen: (
    replied: (reply: SolverReplied) => void,
    broken: (message: string) => void,
  ) => void;
  readonly close: () => void;
}
