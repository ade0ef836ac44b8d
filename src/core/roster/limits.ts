import { type Night, addNights } from '../domain/night.ts';
import type { Sitter } from './roster-question.ts';

/** Nights over which the shifts of a week are counted: any seven in a row. */
const week_nights = 7;

/** Shifts that somebody may take at most in some nights; each night is at most one shift. */
export interface Limit {
  /** Only nights of the plan; those before it are counted off already. */
  readonly nights: readonly Night[];
  readonly most: number;
  readonly because: 'night' | 'rest' | 'week';
}

/**
 * What limits the shifts of one person over the nights of a plan: one watch a night, no two nights in a
 * row unless willing, so many in any seven nights. `pinned` = nights settled by hand: these are the
 * lead's call, so a limit gives way to them, and no more.
 */
export function limitsOf(
  { backToBack, mostShiftsWeek, sat }: Sitter,
  nights: readonly Night[],
  pinned: ReadonlySet<Night>,
): readonly Limit[] {
  const limit = (window: readonly Night[], most: number, because: Limit['because']): Limit => {
    const open = window.filter((night) => nights.includes(night));
    const left = most - window.filter((night) => sat.includes(night)).length;
    return {
      nights: open,
      most: Math.max(left, open.filter((night) => pinned.has(night)).length),
      because,
    };
  };
  const limits = nights.map((night) => limit([night], 1, 'night'));
  const [first] = nights;
  if (first === undefined) return limits;
  const starts = [...nights.keys()];
  if (!backToBack) {
    for (const start of [-1, ...starts.slice(0, -1)]) {
      limits.push(limit(from(addNights(first, start), 2), 1, 'rest'));
    }
  }
  if (mostShiftsWeek !== null) {
    const before = Array.from({ length: week_nights - 1 }, (_, back) => back - week_nights + 1);
    for (const start of [...before, ...starts]) {
      limits.push(limit(from(addNights(first, start), week_nights), mostShiftsWeek, 'week'));
    }
  }
  return limits.filter(
    ({ nights: open, most, because }) => because === 'night' || open.length > most,
  );
}

function from(first: Night, count: number): Night[] {
  return Array.from({ length: count }, (_, ahead) => addNights(first, ahead));
}
