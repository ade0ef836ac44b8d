import { nightBounds, nightOf, wallClock } from '../../core/domain/night.ts';
import type { Programme } from '../../core/domain/programme.ts';
import type { Crossing } from '../../core/sky/crossing.ts';
import type { Place } from '../../core/sky/place.ts';
import { sunTimes } from '../../core/sky/sun.ts';

/** Without a position the dark hours are these, on the season's clocks (a guess that errs to the dark). */
export const darkFrom_min = 19 * 60;
export const darkTo_min = 7 * 60;

/** The middle of a programme's beach; null when it does not say. */
export function placeOf(programme: Programme): Place | null {
  const { latitude, longitude } = programme;
  if (latitude === undefined || longitude === undefined) return null;
  return { latitude_deg: latitude, longitude_deg: longitude };
}

/** Whether the sun is down at a place; without a place, whether it is evening or night by the clock. */
export function isDarkOutside(place: Place | null, zone: string, at_ms: number): boolean {
  if (place === null) {
    const { minute } = wallClock(at_ms, zone);
    return minute >= darkFrom_min || minute < darkTo_min;
  }
  const { from_ms, to_ms } = nightBounds(nightOf(at_ms, zone), zone);
  const { sunset, sunrise } = sunTimes(place, from_ms, to_ms);
  return isPast(sunset, at_ms, 'always down') && !isPast(sunrise, at_ms, 'always up');
}

function isPast(crossing: Crossing, at_ms: number, otherwise: Crossing['kind']): boolean {
  return crossing.kind === 'at' ? at_ms >= crossing.time_ms : crossing.kind === otherwise;
}
