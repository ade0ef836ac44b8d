import type { Night } from '../domain/night.ts';
import type { Nest } from '../domain/nest.ts';
import { normalCdf } from '../numerics/normal.ts';
import { neverShare } from './incubation.ts';

/**
 * What a programme does without any of this: it sits at the nests whose age is closest to a set
 * day. `day` nights from laying with a spread, and the chance that follows from it.
 */
export interface CalendarRule {
  readonly day: number;
  readonly spread: number;
}

/** Day 55 with the spread of an unknown beach (derived from published field nests). */
export const calendarDay55: CalendarRule = { day: 55, spread: 6 };

/**
 * The rule that learns the season's own mean: of the nests that have come up so far, drawn towards
 * day 55 as if by two nests. It knows nothing of those that have not come up.
 */
export function learnedCalendar(incubations: readonly number[]): CalendarRule {
  const weight = 2;
  const sum = incubations.reduce((total, nights) => total + nights, weight * calendarDay55.day);
  return {
    day: sum / (incubations.length + weight),
    spread: incubations.length === 0 ? calendarDay55.spread : 5,
  };
}

/** Age on a night from the middle of the lay range; null when the lay night is not known. */
export function ageOn({ layNight, layNightLatest }: Nest, night: Night): number | null {
  return layNight === null ? null : night - (layNight + (layNightLatest ?? layNight)) / 2;
}

/** How far a nest's age is from the rule's day: the smaller, the sooner a pair sits there. */
export function calendarDistance(nest: Nest, night: Night, { day }: CalendarRule): number {
  const age = ageOn(nest, night);
  return age === null ? Infinity : Math.abs(age - day);
}

/** Chance that a nest not seen coming up before comes up tonight, by the rule alone. */
export function calendarChance(nest: Nest, night: Night, { day, spread }: CalendarRule): number {
  const age = ageOn(nest, night);
  if (age === null) return 0.01;
  const below = normalCdf((age - 0.5 - day) / spread);
  const tonight = normalCdf((age + 0.5 - day) / spread) - below;
  const never = neverShare(nest.species);
  return ((1 - never) * tonight) / ((1 - never) * (1 - below) + never);
}
