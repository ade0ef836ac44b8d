import loadHighs from 'highs';
import type { SolveOptions, Solved, Solver, Start } from '../../core/roster/solver.ts';

type Highs = Awaited<ReturnType<typeof loadHighs>>;

/** HiGHS's word for a solution that can be read (`kSolutionStatusFeasible`). */
const feasiblePoint = 2;
/** By how much, of itself, the objective of a program without whole columns may fall short of the true one. */
const tolerance = 1e-6;

export interface HighsOptions {
  /** Where the runtime lies; in Node it is found beside the package. */
  readonly wasmUrl?: string;
  /** Without presolve: slower, but without the faults of that part. */
  readonly careful?: boolean;
}

/**
 * The solver in this thread: each `solve` blocks it until done, and for ever where presolve does not
 * come to an end, so the app and the terminal run it in a thread that is watched (`watched-solver.ts`).
 * It is loaded on the first call.
 */
export function highsSolver({ wasmUrl, careful = false }: HighsOptions = {}): Solver {
  let loaded: Promise<Highs> | null = null;
  const load = (): Promise<Highs> =>
    loadHighs(wasmUrl === undefined ? {} : { locateFile: () => wasmUrl });
  return {
    async solve(lp, options) {
      const from_ms = performance.now();
      const took_s = (): number => (performance.now() - from_ms) / 1000;
      try {
        loaded ??= load();
        const solved = solveWith(await loaded, lp, options, careful);
        return { ...solved, took_s: took_s() };
      } catch (error) {
        // A runtime that ran out of memory is of no more use.
        loaded = null;
        const message = error instanceof Error ? error.message : String(error);
        return { state: 'failed', message, took_s: took_s() };
      }
    },
  };
}

function solveWith(
  highs: Highs,
  lp: string,
  { time_s, gap, start }: SolveOptions,
  careful: boolean,
): Answer {
  const { modelStatus } = highs.constants;
  const isWhole = /^General$/m.test(lp);
  return highs.withModel({ format: 'lp', data: lp }, (model): Answer => {
    model.options.set({ output_flag: false, time_limit: time_s, mip_rel_gap: gap, random_seed: 1 });
    if (start !== null) tryStart(model, start);
    // From the inside, then to a corner, where few columns are left in part.
    if (!isWhole) model.options.set({ solver: 'ipm', run_crossover: 'on' });
    if (careful) model.options.set('presolve', 'off');
    model.run();
    const status = model.getModelStatus();
    if (status === modelStatus.infeasible) return { state: 'infeasible' };
    const objective = model.getObjectiveValue();
    const isProven = status === modelStatus.optimal;
    const bound = isWhole
      ? Number(model.info.get('mip_dual_bound'))
      : isProven
        ? objective + Math.abs(objective) * tolerance
        : Infinity;
    const isThere = Number(model.info.get('primal_solution_status')) === feasiblePoint;
    if (!isThere) return { state: 'none found', bound };
    return { state: 'solved', values: model.getSolution().colValue, objective, bound };
  });
}

type Answer = Unclocked<Solved>;
type Unclocked<Each> = Each extends unknown ? Omit<Each, 'took_s'> : never;
type Model = ReturnType<Highs['createModel']>;

/** A start is a hint: one that the solver cannot use is left out. */
function tryStart(model: Model, { columns, values }: Start): void {
  try {
    model.setSolution({
      indices: Int32Array.from(columns),
      values: Float64Array.from(values),
    });
  } catch {
    return;
  }
}
