import { gainOf } from './gain.ts';
import type { RosterQuestion } from './roster-question.ts';
import { shiftsOf } from './watches.ts';

/** What so many crews at once could meet, whoever they are. */
export interface CapacityPoint {
  /** Posts kept in every watch. */
  readonly crews: number;
  readonly firstNight: number;
  readonly allNights: number;
}

export interface Capacity {
  /** From no crew to `mostCrews`, or to as many as there are posts. */
  readonly points: readonly CapacityPoint[];
  /** Boils expected (or hatchlings at stake) at any hour, watched or not. */
  readonly firstNight: number;
  readonly allNights: number;
}

/**
 * How much would be met by how many crews: in every watch the posts of most worth are kept, for all of
 * the watch. People, their nights and their hours are left out of it: this is what to recruit for.
 */
export function capacityOf(question: RosterQuestion, mostCrews: number): Capacity {
  const { nights, posts, rules, zone } = question;
  const [first] = nights;
  const shifts = shiftsOf(nights, rules, zone).map((shift) => ({
    isFirst: shift.outlook === first,
    gains: posts.map((post) => gainOf(shift, post, shift, rules.goal)).sort((a, b) => b - a),
  }));
  const count = Math.min(mostCrews, posts.length);
  const points = Array.from({ length: count + 1 }, (_, crews): CapacityPoint => {
    const met = (of: typeof shifts): number =>
      sum(of.flatMap(({ gains }) => gains.slice(0, crews)));
    return {
      crews,
      firstNight: met(shifts.filter(({ isFirst }) => isFirst)),
      allNights: met(shifts),
    };
  });
  const whole = nights.map((outlook) => {
    const watched = new Set(posts.flatMap((post) => post.nests));
    return sum(
      outlook.chances
        .filter(({ nest }) => watched.has(nest))
        .map(({ p, atStake }) => p * (rules.goal === 'boils' ? 1 : atStake)),
    );
  });
  return { points, firstNight: whole[0] ?? 0, allNights: sum(whole) };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
