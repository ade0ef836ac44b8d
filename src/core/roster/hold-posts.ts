import type { LinearProgram } from './linear-program.ts';
import type { RosterProgram } from './roster-program.ts';
import type { Start } from './solver.ts';

/**
 * A program with the posts, and from when to when they are kept, held as they are in a start: only who
 * sits there is still to be chosen.
 */
export function holdPosts({ program, openings }: RosterProgram, start: Start): LinearProgram {
  const values = new Map(start.columns.map((column, index) => [column, start.values[index] ?? 0]));
  const kept = new Set(openings.flatMap((columns) => columns.kept.map(({ column }) => column)));
  const columns = program.columns.map((column, index) => {
    const value = values.get(index) ?? 0;
    return kept.has(index) ? { ...column, lower: value, upper: value } : column;
  });
  return { ...program, columns };
}
