import type { Column, LinearProgram } from './linear-program.ts';
import type { SolveOptions, Solved, Solver } from './solver.ts';
import { writeLp } from './write-lp.ts';

/** From so many free choices on, a program is solved in two steps. */
export const large = 5000;
/** Share of the time for the first of them at most. */
const relaxing = 0.7;
/** A part smaller than this is none. */
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
  inTwoFrom = large,
): Promise<Solved> {
  const { columns } = program;
  if (freeChoices(program) < inTwoFrom) return solver.solve(writeLp(program), options);
  const relaxed = await solver.solve(writeLp(relaxedOf(program)), {
    ...options,
    time_s: options.time_s * relaxing,
    start: null,
  });
  const left_s = Math.max(0, options.time_s - relaxed.took_s);
  if (relaxed.state === 'infeasible') return relaxed;
  if (relaxed.state !== 'solved' || relaxed.bound === Infinity) {
    const whole = await solver.solve(writeLp(program), { ...options, time_s: left_s });
    return { ...whole, took_s: relaxed.took_s + whole.took_s };
  }
  const used = new Set(
    options.start?.columns.filter((_, index) => (options.start?.values[index] ?? 0) > nothing),
  );
  const few = columns.map((column, index) =>
    isFree(column) && !used.has(index) && (relaxed.values[index] ?? 0) <= nothing
      ? { ...column, upper: 0 }
      : column,
  );
  const whole = await solver.solve(writeLp({ ...program, columns: few }), {
    ...options,
    time_s: left_s,
  });
  const took_s = relaxed.took_s + whole.took_s;
  switch (whole.state) {
    case 'solved':
    case 'none found':
      return { ...whole, bound: relaxed.bound, took_s };
    case 'infeasible':
      return { state: 'none found', bound: relaxed.bound, took_s };
    case 'failed':
      return { ...whole, took_s };
  }
}

/** How many choices of a program are not settled. */
export function freeChoices({ columns }: LinearProgram): number {
  return columns.filter(isFree).length;
}

function isFree({ lower, upper }: Column): boolean {
  return lower === 0 && upper === 1;
}

/** A program with parts of people and posts allowed. */
export function relaxedOf(program: LinearProgram): LinearProgram {
  return { ...program, columns: program.columns.map((column) => ({ ...column, isWhole: false })) };
}
