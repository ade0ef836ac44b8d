import { addNights, atWallClock, nightBounds, nightOf } from '../../core/domain/night.ts';
import type { Place } from '../../core/sky/place.ts';
import { sunTimes } from '../../core/sky/sun.ts';
import { type DarkSwitch } from './device-settings.svelte.ts';
import { darkFrom_min, darkTo_min } from './dark-hours.ts';

/** For how many nights to come the dark hours are told to the first paint. */
const nightsAhead = 30;

/** What `public/first-paint.js` reads before anything is drawn. */
export interface DarkMemory {
  readonly switch: DarkSwitch;
  /** From and to, epoch milliseconds; empty when nothing is known of place or season. */
  readonly spans: readonly (readonly [from_ms: number, to_ms: number])[];
}

/** The switch and the dark hours of the nights to come, on the clocks of a zone. */
export function darkMemory(
  darkSwitch: DarkSwitch,
  place: Place | null,
  zone: string,
  now_ms: number,
): DarkMemory {
  const first = nightOf(now_ms, zone);
  const spans = Array.from({ length: nightsAhead }, (_, index) => {
    const night = addNights(first, index);
    const { from_ms, to_ms } = nightBounds(night, zone);
    if (place === null) {
      return [
        atWallClock(night, darkFrom_min, zone),
        atWallClock(night + 1, darkTo_min, zone),
      ] as const;
    }
    const { sunset, sunrise } = sunTimes(place, from_ms, to_ms);
    if (sunset.kind === 'always up') return [from_ms, from_ms] as const;
    return [
      sunset.kind === 'at' ? sunset.time_ms : from_ms,
      sunrise.kind === 'at' ? sunrise.time_ms : to_ms,
    ] as const;
  });
  return { switch: darkSwitch, spans };
}
