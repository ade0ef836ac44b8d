import { type Night, parseNight } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { BeachTemperature } from '../thermal/beach-temperature.ts';
import type { DailyWeather } from '../thermal/daily-weather.ts';

/** Remembers what the sand and weather of a season say, as known on the evening last asked about. */
export class SeasonTemperature {
  #rows: { readonly from: SeasonRecord['conditions']; readonly rows: DailyWeather[] } | null = null;
  #asked: {
    readonly rows: DailyWeather[];
    readonly night: Night;
    readonly latitude_deg: number | null;
    readonly beach: BeachTemperature;
  } | null = null;

  /** The beach's temperature by what was measured on the dates before a night. */
  before(record: SeasonRecord, night: Night, latitude_deg: number | null): BeachTemperature {
    const rows = this.#rowsOf(record.conditions);
    const known = this.#asked;
    if (known?.rows === rows && known.night === night && known.latitude_deg === latitude_deg) {
      return known.beach;
    }
    const beach = new BeachTemperature(rows, night, latitude_deg);
    this.#asked = { rows, night, latitude_deg, beach };
    return beach;
  }

  #rowsOf(conditions: SeasonRecord['conditions']): DailyWeather[] {
    if (this.#rows?.from === conditions) return this.#rows.rows;
    const rows = conditions.flatMap(({ fact: { details } }): DailyWeather[] => {
      const night = parseNight(details.date);
      if (night === null) return [];
      const { zone = null, sand_c = null, air_c = null, rain_mm = null } = details;
      return [{ night, zone, sand_c, air_c, rain_mm }];
    });
    this.#rows = { from: conditions, rows };
    return rows;
  }
}
