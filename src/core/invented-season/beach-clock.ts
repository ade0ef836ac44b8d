import { asNight, formatNight, nightBounds, wallClock } from '../domain/night.ts';
import type { Crossing } from '../sky/crossing.ts';
import { type SunTimes, sunTimes } from '../sky/sun.ts';

/**
 * Time on the invented beach. Inside the generator a moment is a number of days whose whole part
 * is the night (from local noon) and whose fraction is the share of the 24 hours since that noon.
 */
export interface BeachClock {
  /** Sunset of a night, as such a moment. */
  sunset(night: number): number;
  /** The sunrise that ends a night. */
  sunrise(night: number): number;
  /** ISO text on the beach's clocks, to the minute, such as `2026-07-20T21:10-04:00`. */
  text(moment: number): string;
  /** `yyyy-mm-dd` of a night or a date. */
  date(night: number): string;
}

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
/** An hour and a minute of such moments, in days. */
export const HOUR = 1 / 24;
export const MINUTE = HOUR / 60;

/** The clock of a beach at this latitude and longitude (degrees) in an IANA time zone. */
export function beachClock(latitude_deg: number, longitude_deg: number, zone: string): BeachClock {
  const nights = new Map<number, { noon_ms: number; sun: SunTimes }>();
  const dates = new Map<number, string>();

  const known = (night: number): { noon_ms: number; sun: SunTimes } => {
    let found = nights.get(night);
    if (found === undefined) {
      const { from_ms, to_ms } = nightBounds(asNight(night), zone);
      const sun = sunTimes({ latitude_deg, longitude_deg }, from_ms, to_ms);
      nights.set(night, (found = { noon_ms: from_ms, sun }));
    }
    return found;
  };
  const momentOf = (night: number, crossing: Crossing): number => {
    if (crossing.kind !== 'at') throw new RangeError(`The sun is ${crossing.kind} at this beach.`);
    return night + (crossing.time_ms - known(night).noon_ms) / DAY_MS;
  };
  const date = (night: number): string => {
    let text = dates.get(night);
    if (text === undefined) dates.set(night, (text = formatNight(asNight(night))));
    return text;
  };

  return {
    sunset: (night) => momentOf(night, known(night).sun.sunset),
    sunrise: (night) => momentOf(night, known(night).sun.sunrise),
    text(moment) {
      const night = Math.floor(moment);
      const passed_min = Math.round((moment - night) * 1440);
      const at_ms = known(night).noon_ms + passed_min * MINUTE_MS;
      const { day, minute } = wallClock(at_ms, zone);
      const ahead_min = day * 1440 + minute - Math.round(at_ms / MINUTE_MS);
      const sign = ahead_min < 0 ? '-' : '+';
      return `${date(day)}T${hoursAndMinutes(minute)}${sign}${hoursAndMinutes(Math.abs(ahead_min))}`;
    },
    date,
  };
}

function hoursAndMinutes(minute: number): string {
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

function two(count: number): string {
  return count < 10 ? `0${count}` : String(count);
}
