import { formatNight } from '../../core/domain/night.ts';
import { hasErrors } from '../../core/exchange/problem.ts';
import type { Moment, NestForecast, SeasonForecast } from '../../core/forecast/forecast.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import type { ForecastMemory } from '../../core/forecast/season-memory.ts';
import { forecastSeason } from '../../core/forecast/tonight.ts';
import { whyTonight } from '../../core/forecast/why.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { needed, readArguments, zoneOption } from '../wiring/arguments.ts';
import type { Command } from '../wiring/command.ts';
import { percent } from '../wiring/percent.ts';
import { loadArchive } from '../wiring/load-archive.ts';
import { loadSeason, tellProblems } from '../wiring/load-season.ts';
import { momentOf, nightOption } from '../wiring/moment.ts';

/** The nests of a season in the order of their chance to come up on a night. */
export const rank: Command = {
  name: 'rank',
  usage: 'rank FOLDER --night DATE [--at ISO-TIME] [--archive FOLDER …] [--zone ZONE] [--json]',
  summary: 'ranks the nests by the chance that they come up that night, from what was known then',
  run: async (args, io) => {
    const options = {
      night: { type: 'string' },
      at: { type: 'string' },
      zone: { type: 'string' },
      archive: { type: 'string', multiple: true },
      json: { type: 'boolean' },
    } as const;
    const { values, at } = readArguments(args, options, ['FOLDER']);
    const night = nightOption(needed(values.night, 'night'));
    const zone = zoneOption(values.zone) ?? io.zone;
    const { record, problems } = await loadSeason(at[0] ?? '', { zone, now_ms: io.now_ms() });
    const moment = momentOf(night, values.at, record.zone, io);
    const { finished, errors } = await loadArchive(values.archive ?? [], zone, io);
    const memory = new EveningMemory(finished).on(record, moment);
    const forecast = forecastSeason(record, moment, memory);
    tellProblems(problems, io);
    if (values.json === true) {
      io.out(`${JSON.stringify(asJson(forecast, record, memory), null, 1)}\n`);
    } else {
      io.out(asText(forecast));
    }
    return hasErrors(problems) || errors ? 1 : 0;
  },
};

function asJson(forecast: SeasonForecast, record: SeasonRecord, memory: ForecastMemory): unknown {
  const { moment, level } = forecast;
  return {
    night: formatNight(moment.night),
    nests: forecast.nests.map((nest) => nestJson(nest, record, moment, memory)),
    out: forecast.out.map(({ record: { nest }, reason, night }) => ({
      nest: nest.id,
      reason,
      night: formatNight(night),
    })),
    season_level: { mean_log: level.mean, sd_log: level.sd, days_at_55: level.days },
  };
}

function nestJson(
  nest: NestForecast,
  record: SeasonRecord,
  moment: Moment,
  memory: ForecastMemory,
): unknown {
  const { id } = nest.record.nest;
  return {
    nest: id,
    rank: nest.rank,
    p_tonight: nest.pTonight,
    p_next3: nest.pNext3,
    p_already: nest.pAlready,
    p_never: nest.pNever,
    median_night: nest.medianNight === null ? null : formatNight(nest.medianNight),
    low_night: nest.lowNight === null ? null : formatNight(nest.lowNight),
    high_night: nest.highNight === null ? null : formatNight(nest.highNight),
    check_value: nest.checkValue,
    hatchlings_at_stake: nest.atStake,
    distribution: nest.distribution.map(({ night, p }) => ({ night: formatNight(night), p })),
    why: whyTonight(record, moment, id, memory).map(({ text, factor }) => ({ text, factor })),
  };
}

function asText({ moment, level, nests, out }: SeasonForecast): string {
  const lines = [
    `Night of ${formatNight(moment.night)}. The season runs ${levelText(level.days)}.`,
    '',
    'rank  nest          tonight  3 nights  already  never  at stake  most likely',
    ...nests.map((nest) =>
      [
        String(nest.rank).padStart(4),
        ` ${nest.record.nest.id.padEnd(13)}`,
        percent(nest.pTonight).padStart(7),
        percent(nest.pNext3).padStart(9),
        percent(nest.pAlready).padStart(8),
        percent(nest.pNever).padStart(6),
        stake(nest.atStake).padStart(9),
        nest.medianNight === null
          ? ' -'
          : ` ${formatNight(nest.medianNight)} (${span(nest.lowNight, nest.highNight)})`,
      ].join(' '),
    ),
    ...out.map(
      ({ record, reason, night }) => `   -  ${record.nest.id}: ${reason}, ${formatNight(night)}`,
    ),
  ];
  return `${lines.join('\n')}\n`;
}

function span(low: NestForecast['lowNight'], high: NestForecast['highNight']): string {
  const day = (night: NestForecast['lowNight']): string =>
    night === null ? '?' : formatNight(night).slice(5);
  return `${day(low)} to ${day(high)}`;
}

function levelText(days: number): string {
  const nights = Math.abs(days).toFixed(1);
  return `${nights} nights ${days < 0 ? 'earlier' : 'later'} than usual`;
}

/** Hatchlings, told as roughly as they are known. */
function stake(hatchlings: number): string {
  return hatchlings < 0.5 ? '<1' : String(Math.round(hatchlings));
}
