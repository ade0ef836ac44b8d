import type { RosterGoal } from '../domain/roster.ts';
import type { Watch } from '../domain/visit.ts';
import type { Post } from './roster-question.ts';
import { leastWatch_min } from './roster-rules.ts';
import type { Shift } from './watches.ts';

const MINUTE_MS = 60_000;

/**
 * When somebody who is on the beach from and to certain times is at a post in a watch: from after the
 * walk there, to before the walk back. Null when that is too short to be sent out for.
 */
export function timeAtPost(shift: Shift, { walk_min }: Post, duty: Watch): Watch | null {
  const from_ms = Math.max(shift.from_ms, duty.from_ms + walk_min * MINUTE_MS);
  const to_ms = Math.min(shift.to_ms, duty.to_ms - walk_min * MINUTE_MS);
  const least_ms = Math.min(leastWatch_min * MINUTE_MS, shift.to_ms - shift.from_ms);
  return to_ms - from_ms >= least_ms ? { from_ms, to_ms } : null;
}

/** Boils met, or hatchlings kept from going astray, that are to be expected of keeping a post a while. */
export function gainOf(
  { outlook }: Shift,
  { nests }: Pick<Post, 'nests'>,
  { from_ms, to_ms }: Watch,
  goal: RosterGoal,
): number {
  const share = outlook.begunBy(to_ms) - outlook.begunBy(from_ms);
  return outlook.chances
    .filter(({ nest }) => nests.includes(nest))
    .reduce((sum, { p, atStake }) => sum + p * share * (goal === 'boils' ? 1 : atStake), 0);
}

/** The time in which all of some people are on the beach. */
export function together(duties: readonly Watch[]): Watch {
  return {
    from_ms: Math.max(-Infinity, ...duties.map(({ from_ms }) => from_ms)),
    to_ms: Math.min(Infinity, ...duties.map(({ to_ms }) => to_ms)),
  };
}

/** Whether one stretch of time holds another. */
export function holds(outer: Watch, inner: Watch): boolean {
  return outer.from_ms <= inner.from_ms && outer.to_ms >= inner.to_ms;
}
