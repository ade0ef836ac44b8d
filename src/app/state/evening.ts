import { type Night, asNight, atWallClock, wallClock } from '../../core/domain/night.ts';
import type { Moment } from '../../core/forecast/forecast.ts';

/**
 * From this hour "tonight" is the evening to come; before it, the night that is ending, so that
 * somebody who sits at 02:00 or walks at dawn still sees the night they are in.
 */
const turnsOver_min = 9 * 60;

/** The night that "tonight" means at an instant, on the clocks of a zone. */
export function tonightAt(at_ms: number, zone: string): Night {
  const { day, minute } = wallClock(at_ms, zone);
  return asNight(minute < turnsOver_min ? day - 1 : day);
}

/** What the ranking is asked for at an instant: that night, with every note made so far. */
export function momentAt(at_ms: number, zone: string): Moment {
  return { night: tonightAt(at_ms, zone), at_ms };
}

/** The hour at which an evening of the invented season begins to be shown. */
const eveningStarts_min = 19 * 60 + 40;

/** 19:40 on the date of a night, epoch milliseconds. */
export function eveningOf(night: Night, zone: string): number {
  return atWallClock(night, eveningStarts_min, zone);
}
