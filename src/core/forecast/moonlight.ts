import { moonAt } from '../sky/moon.ts';
import type { Place } from '../sky/place.ts';
import type { Dusk, HourCurve } from './hour-of-emergence.ts';

const HOUR_MS = 3_600_000;
/** Hours from sunset in which nearly all nests boil. */
const hoursLooked = 10;

/**
 * How much moonlight there is when nests boil, 0 none to 1 a full moon up all the while: the lit
 * share of the disc, times whether it is up, over the hours of emergence. 0.5 where the place is not
 * known.
 */
export function moonlight(place: Place | null, { sunset_ms }: Dusk, begun: HourCurve): number {
  if (place === null) return 0.5;
  let light = 0;
  let all = 0;
  for (let hour = 0; hour < hoursLooked; hour++) {
    const from_ms = sunset_ms + hour * HOUR_MS;
    const share = begun(from_ms + HOUR_MS) - begun(from_ms);
    const moon = moonAt(place, from_ms + HOUR_MS / 2);
    all += share;
    if (moon.altitude_deg > 0) light += share * moon.illuminatedShare;
  }
  return all > 0 ? light / all : 0;
}
