import type { NestId } from '../domain/nest.ts';
import { type Night, addNights } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { hatchlingsAtStake, stakeSettings } from './at-stake.ts';
import type { SeasonForecast } from './forecast.ts';
import type { HourCurve } from './hour-of-emergence.ts';
import { siteOf } from './site.ts';

/** What is to be expected of one coming night, as plans are made from it. */
export interface ComingNight {
  readonly night: Night;
  readonly sunset_ms: number;
  readonly sunrise_ms: number;
  readonly begunBy: HourCurve;
  /** `p` unconditional; `atStake` = hatchlings expected to go astray unattended if it boils then. */
  readonly chances: readonly {
    readonly nest: NestId;
    readonly p: number;
    readonly atStake: number;
  }[];
}

/** The nights from the forecast's own on, each with the chances as they are seen today. */
export function comingNights(
  record: SeasonRecord,
  { moment, nests }: Pick<SeasonForecast, 'moment' | 'nests'>,
  count: number,
): readonly ComingNight[] {
  const site = siteOf(record);
  const settings = stakeSettings(record.programme);
  return Array.from({ length: count }, (_, ahead): ComingNight => {
    const night = addNights(moment.night, ahead);
    const moonlight = site.moonlight(night);
    const { sunset_ms, sunrise_ms } = site.dusk(night);
    return {
      night,
      sunset_ms,
      sunrise_ms,
      begunBy: site.hours(night, site.wetDay(night)),
      chances: nests.map(({ record: { nest }, distribution }) => ({
        nest: nest.id,
        p: distribution[ahead]?.night === night ? distribution[ahead].p : 0,
        atStake: hatchlingsAtStake(1, nest, moonlight, settings),
      })),
    };
  });
}
