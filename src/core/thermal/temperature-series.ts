import { DailyValues } from './daily-values.ts';
import type { Readings } from './daily-weather.ts';
import type { Measured } from './day-means.ts';
import { fillGaps } from './fill-gaps.ts';
import { bringTogether, type Loggers } from './loggers.ts';
import { sandOnAirDays } from './sand-level.ts';
import {
  expectedYear,
  fitSeasonalNormal,
  normalOn,
  type SeasonalNormal,
} from './seasonal-normal.ts';

/**
 * What a day's sand temperature rests on: a logger of the nest's own zone, one elsewhere on the
 * beach or for all of it, air and rain, or nothing measured that day (the seasonal normal and the
 * days around).
 */
export type DaySource = 'beside' | 'beach' | 'air' | 'none';

/** Sand at nest depth in a zone, without gaps, and what each day of it rests on. */
export interface TemperatureSeries {
  /** Degrees C on any day (days since 1970-01-01), past or future. */
  at(day: number): number;
  sourceOn(day: number): DaySource;
}

/** Days kept ready before the first and after the last reading; beyond them the normal holds. */
const BEFORE_DAYS = 60;
const AFTER_DAYS = 150;

/** The temperatures of one beach as they were known on one evening. */
export class BeachSeries {
  readonly #readings: Readings;
  readonly #loggers: Loggers;
  readonly #normal: SeasonalNormal;
  readonly #beach: DailyValues;
  readonly #zones = new Map<string | null, TemperatureSeries>();

  /**
   * `latitude_deg` (north positive, null = not known) tells the swing of the year. Throws a
   * RangeError when neither sand nor air was ever measured.
   */
  constructor(readings: Readings, latitude_deg: number | null) {
    const { air_c } = readings;
    this.#readings = readings;
    this.#loggers = bringTogether(readings.sand_c);
    const { beach_c } = this.#loggers;
    const days = [...beach_c.keys(), ...air_c.keys()];
    if (days.length === 0) {
      throw new RangeError('No temperature was measured: there is nothing to make a series of.');
    }
    const from = Math.min(...days) - BEFORE_DAYS;
    const to = Math.max(...days) + AFTER_DAYS;
    const year = expectedYear(latitude_deg);
    const byAir_c = sandOnAirDays(readings, beach_c, from, to, year);
    this.#normal = fitSeasonalNormal(new Map([...byAir_c, ...beach_c]), year);
    const usual = new DailyValues(from, to, (day) => normalOn(this.#normal, day));
    this.#beach = fillGaps(fillGaps(usual, byAir_c), beach_c);
  }

  /** The series of a zone; a zone without a logger, or null, has the beach's. */
  zone(zone: string | null): TemperatureSeries {
    const own = zone === null ? undefined : this.#readings.sand_c.get(zone);
    const key = own === undefined ? null : zone;
    let series = this.#zones.get(key);
    if (series === undefined) this.#zones.set(key, (series = this.#seriesOf(key, own)));
    return series;
  }

  #seriesOf(zone: string | null, own: Measured | undefined): TemperatureSeries {
    const beach = this.#beach;
    const normal = this.#normal;
    const { beach_c, warmer_c } = this.#loggers;
    const { air_c } = this.#readings;
    const more_c = own === undefined ? 0 : (warmer_c.get(zone) ?? 0);
    const filled =
      own === undefined
        ? beach
        : fillGaps(new DailyValues(beach.first, beach.last, (day) => beach.at(day) + more_c), own);
    return {
      at: (day) => (filled.has(day) ? filled.at(day) : normalOn(normal, day) + more_c),
      sourceOn(day) {
        if (own?.has(day) === true) return 'beside';
        if (beach_c.has(day)) return 'beach';
        return air_c.has(day) ? 'air' : 'none';
      },
    };
  }
}
