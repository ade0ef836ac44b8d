import type { LinearProgram } from './linear-program.ts';
import type { SolveOptions, Solved, Solver } from './solver.ts';
import { writeLp } from './write-lp.ts';

/** From so many columns on, a program is solved in two steps. */
const large = 5000;
/** Share of the time for the first of them. */
const relaxing = 0.5;
/** A part smaller than this is none: a solution found from the inside has a little of everything. */
const nothing = 0.02;

/**
 * Solves a program to the gap asked for or until time is up. A large one first with parts of people and
 * posts allowed, which bounds what any plan is worth; then whole, of what had any part in that or in the
 * start. That leaves out nearly all of it and loses next to nothing, and the bound still holds for all.
 */
export async function solveProgram(
  program: LinearProgram,
  solver: Solver,
  options: SolveOptions,
): Promise<Solved> {
  const { columns } = program;
  if (columns.length < large) return solver.solve(writeLp(program), options);
  const parts = columns.map((column) => ({ ...column, isWhole: false }));
  const relaxed = await solver.solve(writeLp({ ...program, columns: parts }), {
    ...options,
    time_s: options.time_s * relaxing,
    start: null,
  });
  if (relaxed.state !== 'solved' || relaxed.bound === Infinity) {
    return relaxed.state === 'solved' ? { state: 'none found', bound: Infinity } : relaxed;
  }
  const used = new Set(
    options.start?.columns.filter((_, index) => (options.start?.values[index] ?? 0) > nothing),
  );
  const few = columns.map((column, index) =>
    column.upper === 1 && column.lower === 0 && !used.has(index) && isNothing(relaxed.values[index])
      ? { ...column, upper: 0 }
      : column,
  );
  const whole = await solver.solve(writeLp({ ...program, columns: few }), {
    ...options,
    time_s: options.time_s * (1 - relaxing),
  });
  switch (whole.state) {
    case 'solved':
    case 'none found':
      return { ...whole, bound: relaxed.bound };
    case 'infeasible':
      return { state: 'none found', bound: relaxed.bound };
    case 'failed':
      return whole;
  }
}

function isNothing(value: number | undefined): boolean {
  return (value ?? 0) <= nothing;
}
