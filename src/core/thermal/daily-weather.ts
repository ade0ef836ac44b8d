import type { Night } from '../domain/night.ts';
import { DayMeans, type Measured } from './day-means.ts';

/** Sand, air and rain of one date, as written down; null is not known. */
export interface DailyWeather {
  /** The date, as the night of its evening. */
  readonly night: Night;
  /** Null = the whole beach. */
  readonly zone: string | null;
  /** Mean of the day at nest depth. */
  readonly sand_c: number | null;
  readonly air_c: number | null;
  readonly rain_mm: number | null;
}

export interface Readings {
  /** By the zone of the logger; null = a logger that stands for the whole beach. */
  readonly sand_c: ReadonlyMap<string | null, Measured>;
  readonly air_c: Measured;
  readonly rain_mm: Measured;
}

/** Daily means outside these do not come from sand at nest depth in a nesting season (guess). */
const SAND_C = { least: 12, most: 45 };
/** Older rows, and dates with a mistyped year, do not count (guess: beaches change). */
const REMEMBERED_DAYS = 3653;

/**
 * What was measured on the dates before `knownBefore`; later rows are not looked at, so that a
 * replay of an earlier evening cannot learn from them, nor at those more than ten years older.
 * Several rows of one date (for sand: and zone) give their mean. Sand outside 12-45 C is left out:
 * that logger was not in the sand.
 */
export function readingsBefore(rows: readonly DailyWeather[], knownBefore: Night): Readings {
  const sand = new Map<string | null, DayMeans>();
  const air = new DayMeans();
  const rain = new DayMeans();
  for (const { night, zone, sand_c, air_c, rain_mm } of rows) {
    if (night >= knownBefore || night < knownBefore - REMEMBERED_DAYS) continue;
    if (air_c !== null) air.add(night, air_c);
    if (rain_mm !== null) rain.add(night, rain_mm);
    if (sand_c === null || sand_c < SAND_C.least || sand_c > SAND_C.most) continue;
    let logger = sand.get(zone);
    if (logger === undefined) sand.set(zone, (logger = new DayMeans()));
    logger.add(night, sand_c);
  }
  return {
    sand_c: new Map([...sand].map(([zone, logger]) => [zone, logger.means()])),
    air_c: air.means(),
    rain_mm: rain.means(),
  };
}
