import type { Night } from '../domain/night.ts';
import type { Species } from '../domain/species.ts';
import { type CentralDuration, centralDuration } from './central-duration.ts';
import { type DailyWeather, readingsBefore } from './daily-weather.ts';
import { BeachSeries } from './temperature-series.ts';

/**
 * When the temperature says that a nest is due, and how far its sand is from where that is surest.
 */
export interface NestTemperature extends CentralDuration {
  /**
   * Its mean sand temperature less 29 C, the middle of what the development lines rest on: a line
   * that is too steep or too flat is off in proportion to this. The same on every evening and
   * beach.
   */
  readonly meanDeviation_c: number;
}

/**
 * The incubators stood at 26-32 C, most near 29.5; half a degree of it would be the clutch's own
 * heat.
 */
const MIDDLE_SAND_C = 29;

/**
 * What the sand and the weather of a beach, as known on one evening, say of its nests. Only rows
 * dated before `knownBefore` count. `latitude_deg` (north positive) tells how the year goes on
 * where few days have been measured; null when it is not known.
 */
export class BeachTemperature {
  readonly #series: BeachSeries | null;
  readonly #known = new Map<string, NestTemperature>();

  constructor(
    rows: readonly DailyWeather[],
    knownBefore: Night,
    latitude_deg: number | null = null,
  ) {
    const readings = readingsBefore(rows, knownBefore);
    const measured = readings.sand_c.size > 0 || readings.air_c.size > 0;
    this.#series = measured ? new BeachSeries(readings, latitude_deg) : null;
  }

  /**
   * What a nest of this species, laid on this night in this zone (null = not known), takes. The
   * same for all such nests, and worked out once. Null when no temperature has been measured at
   * all.
   */
  central(species: Species | null, layNight: Night, zone: string | null): NestTemperature | null {
    if (this.#series === null) return null;
    const key = `${species ?? ''}|${layNight}|${zone === null ? '' : `in ${zone}`}`;
    let known = this.#known.get(key);
    if (known === undefined) {
      const central = centralDuration(species, layNight, this.#series.zone(zone));
      known = { ...central, meanDeviation_c: central.mean_c - MIDDLE_SAND_C };
      this.#known.set(key, known);
    }
    return known;
  }
}
