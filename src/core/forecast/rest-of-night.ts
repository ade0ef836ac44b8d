import type { NestId } from '../domain/nest.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { Moment } from './forecast.ts';
import { oddsFrom } from './nest-odds.ts';
import { type OneNest, oneNest } from './one-nest.ts';
import { ForecastMemory } from './season-memory.ts';
import { chanceOn, outOf } from './tonight.ts';

const HOUR_MS = 3_600_000;

export interface HourChance {
  readonly from_ms: number;
  readonly to_ms: number;
  readonly p: number;
}

/** The chance of a boil in what is left of a night, and hour by hour. */
export interface RestOfNight {
  readonly pRest: number;
  readonly byHour: readonly HourChance[];
}

/**
 * The chance that a nest boils in the rest of this night when it was watched up to `moment.at_ms`
 * and nothing came, P(boil after h | nothing by h), and for each clock hour from then to sunrise.
 * Zero when the nest is out of the ranking; null for a nest that is not on record.
 */
export function restOfNight(
  record: SeasonRecord,
  moment: Moment,
  nest: NestId,
  memory: ForecastMemory = new ForecastMemory(),
): RestOfNight | null {
  const one = oneNest(record, moment, nest, memory);
  if (one === null) return null;
  const site = memory.siteOf(record);
  const begun = site.hours(moment.night, site.wetDay(moment.night));
  const pTonight = outOf(one.work, moment.night) === null ? chanceUnwatched(one, moment) : 0;
  const still = 1 - pTonight * begun(moment.at_ms);
  const share = (from_ms: number, to_ms: number): number =>
    still <= 0 ? 0 : (pTonight * (begun(to_ms) - begun(from_ms))) / still;
  const byHour: HourChance[] = [];
  const end_ms = site.dusk(moment.night).sunrise_ms;
  for (let from_ms = moment.at_ms; from_ms < end_ms;) {
    const to_ms = Math.min(end_ms, (Math.floor(from_ms / HOUR_MS) + 1) * HOUR_MS);
    byHour.push({ from_ms, to_ms, p: share(from_ms, to_ms) });
    from_ms = to_ms;
  }
  return { pRest: share(moment.at_ms, Infinity), byHour };
}

/** The chance tonight as if this night's watch had not been noted yet: the caller counts it. */
function chanceUnwatched({ work, evidence, prior, oddsWithout }: OneNest, moment: Moment): number {
  const index = evidence.sightings.findIndex(
    ({ kind, night, count }) => kind === 'watch' && night === moment.night && count === 'none',
  );
  const odds =
    index < 0
      ? oddsFrom(work.candidates, prior, work.never, work.log)
      : oddsWithout({ channel: 'sighting', index });
  return chanceOn(odds, moment.night);
}
