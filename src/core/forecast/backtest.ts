import { type Night, addNights, atWallClock } from '../domain/night.ts';
import type { NestId } from '../domain/nest.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import {
  type CalendarRule,
  calendarChance,
  calendarDay55,
  calendarDistance,
  learnedCalendar,
} from './calendar-rule.ts';
import type { Moment, NestForecast, SeasonForecast } from './forecast.ts';
import { ForecastMemory } from './season-memory.ts';
import { forecastSeason } from './tonight.ts';

/** When each nest boiled; null for one that never did. A nest that is not in it has no known fate. */
export type Fates = ReadonlyMap<NestId, Night | null>;

/** How good a set of odds was over the evenings of a season. */
export interface Score {
  /** Mean of the log of the chance given to what happened, over nests and evenings; 0 is perfect. */
  readonly logScore: number;
  /** Mean squared difference between chance and outcome; 0 is perfect. */
  readonly brier: number;
  /** Share of all boils met when so many pairs sat at the first nests of the ranking. */
  readonly metByRank: readonly { readonly pairs: number; readonly share: number }[];
}

export interface Reliability {
  /** Upper bound of the band of chances. */
  readonly band: number;
  /** Mean chance said, and share that happened, in one band of chances. */
  readonly said: number;
  readonly happened: number;
  readonly n: number;
}

export interface Backtest {
  readonly nights: number;
  readonly boils: number;
  readonly ours: Score;
  readonly calendar: Score;
  readonly learned: Score;
  readonly reliability: readonly Reliability[];
}

/** Chances are sorted into bands at these bounds for reliability. */
const bands = [0.005, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1];
const pairCounts = [1, 2, 3, 4, 5, 6, 8, 10];
/** The clock time of asking on each evening, minutes after midnight. */
const askedAt_min = 18 * 60;

/** The fates that a record itself tells: boils seen, and nests that the sea took or that were dug out. */
export function fatesIn(record: SeasonRecord, memory: ForecastMemory): Fates {
  const fates = new Map<NestId, Night | null>();
  const last = lastNight(record);
  if (last === null) return fates;
  const end = { night: addNights(last, 2), at_ms: Infinity };
  for (const { record: nest, reason, night } of forecastSeason(record, end, memory).out) {
    if (reason === 'boiled') fates.set(nest.nest.id, night);
    else if (reason === 'washed out') fates.set(nest.nest.id, null);
  }
  return fates;
}

/**
 * Replays a season evening by evening with only what was known at 18:00 on each, from the first to
 * the last evening on which a nest of known fate could boil or did. Beside our odds, the calendar
 * rule and the one that learns the season's mean; all of them leave out nests known to be done, and
 * are held to nests that came up unseen and are still in the ranking.
 * `memory` may change from evening to evening, as cues are learned.
 */
export function backtest(
  record: SeasonRecord,
  fates: Fates | null = null,
  memory: ForecastMemory | ((moment: Moment) => ForecastMemory) = new ForecastMemory(),
): Backtest {
  const memoryAt = typeof memory === 'function' ? memory : (): ForecastMemory => memory;
  const known = fates ?? fatesIn(record, new ForecastMemory());
  const boils = [...known.values()].filter((night) => night !== null);
  const [ours, calendar, learned] = [new Scoring(), new Scoring(), new Scoring()];
  const reliability = bands.map((band) => ({ band, said: 0, happened: 0, n: 0 }));
  let nights = 0;
  const first = Math.min(...boils) - 10;
  const last = Math.max(...boils);
  for (let day = first; day <= last; day++) {
    const night = day as Night;
    const at_ms = atWallClock(day, askedAt_min, record.zone);
    const moment = { night, at_ms };
    const forecast = forecastSeason(record, moment, memoryAt(moment));
    const rule = learnedCalendar(incubationsSeen(forecast));
    nights++;
    for (const { record: nest, pTonight } of forecast.nests) {
      const fate = known.get(nest.nest.id);
      if (fate === undefined) continue;
      const boiled = fate === night;
      ours.add(pTonight, boiled);
      calendar.add(calendarChance(nest.nest, night, calendarDay55), boiled);
      learned.add(calendarChance(nest.nest, night, rule), boiled);
      const band = reliability[bands.findIndex((bound) => pTonight <= bound)];
      if (band !== undefined) {
        band.said += pTonight;
        band.happened += boiled ? 1 : 0;
        band.n++;
      }
    }
    const boiling = new Set([...known].filter(([, fate]) => fate === night).map(([id]) => id));
    ours.meet(forecast.nests, boiling);
    calendar.meet(byCalendar(forecast.nests, night, calendarDay55), boiling);
    learned.meet(byCalendar(forecast.nests, night, rule), boiling);
  }
  return {
    nights,
    boils: boils.length,
    ours: ours.score(boils.length),
    calendar: calendar.score(boils.length),
    learned: learned.score(boils.length),
    reliability: reliability.flatMap(({ band, said, happened, n }) =>
      n === 0 ? [] : [{ band, said: said / n, happened: happened / n, n }],
    ),
  };
}

/** Gathers the scores of one set of odds. */
class Scoring {
  #log = 0;
  #square = 0;
  #n = 0;
  readonly #met = pairCounts.map(() => 0);

  add(chance: number, boiled: boolean): void {
    const p = Math.min(1 - 1e-9, Math.max(1e-9, chance));
    this.#log += Math.log(boiled ? p : 1 - p);
    this.#square += (p - (boiled ? 1 : 0)) ** 2;
    this.#n++;
  }

  meet(ranked: readonly NestForecast[], boiling: ReadonlySet<NestId>): void {
    pairCounts.forEach((pairs, index) => {
      const met = ranked.slice(0, pairs).filter(({ record }) => boiling.has(record.nest.id));
      this.#met[index] = (this.#met[index] ?? 0) + met.length;
    });
  }

  score(boils: number): Score {
    const n = Math.max(1, this.#n);
    return {
      logScore: this.#log / n,
      brier: this.#square / n,
      metByRank: pairCounts.map((pairs, index) => ({
        pairs,
        share: boils === 0 ? 0 : (this.#met[index] ?? 0) / boils,
      })),
    };
  }
}

function byCalendar(
  nests: readonly NestForecast[],
  night: Night,
  rule: CalendarRule,
): readonly NestForecast[] {
  const distance = ({ record }: NestForecast): number => calendarDistance(record.nest, night, rule);
  return [...nests].sort(
    (a, b) => distance(a) - distance(b) || (a.record.nest.id < b.record.nest.id ? -1 : 1),
  );
}

/** Nights from laying to boil of the nests known to have boiled, as the forecast tells them. */
function incubationsSeen(forecast: SeasonForecast): number[] {
  return forecast.out.flatMap(({ record, reason, night }) => {
    const laid = layMiddle(record);
    return reason === 'boiled' && laid !== null ? [night - laid] : [];
  });
}

function layMiddle({ nest }: NestRecord): number | null {
  return nest.layNight === null
    ? null
    : (nest.layNight + (nest.layNightLatest ?? nest.layNight)) / 2;
}

function lastNight(record: SeasonRecord): Night | null {
  let last: Night | null = null;
  for (const { visits } of record.nests.values()) {
    const night = visits.at(-1)?.night ?? null;
    if (night !== null && (last === null || night > last)) last = night;
  }
  return last;
}
