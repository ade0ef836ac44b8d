import type { NestId } from '../../core/domain/nest.ts';
import type { NestForecast, NestOut, SeasonForecast } from '../../core/forecast/forecast.ts';
import type { NestRecord, SeasonRecord } from '../../core/log/season-record.ts';

type Named<Entry extends { readonly record: NestRecord }> = Omit<Entry, 'record'> & {
  readonly nest: NestId;
};

/** A forecast as it travels between worker and page: nests by their names. */
export interface SentForecast extends Omit<SeasonForecast, 'nests' | 'out'> {
  readonly nests: readonly Named<NestForecast>[];
  readonly out: readonly Named<NestOut>[];
}

/** The forecast without what the page has itself. */
export function withNames(forecast: SeasonForecast): SentForecast {
  return { ...forecast, nests: forecast.nests.map(named), out: forecast.out.map(named) };
}

/** The forecast joined with the nests of the record it was asked for; throws when one is missing. */
export function withRecords(sent: SentForecast, { nests }: SeasonRecord): SeasonForecast {
  const joined = <Entry extends { readonly nest: NestId }>({ nest, ...rest }: Entry) => {
    const record = nests.get(nest);
    if (record === undefined) throw new RangeError(`Nest ${nest} is not on this record.`);
    return { ...rest, record };
  };
  return { ...sent, nests: sent.nests.map(joined), out: sent.out.map(joined) };
}

function named<Entry extends { readonly record: NestRecord }>(entry: Entry): Named<Entry> {
  const { record, ...rest } = entry;
  return { ...rest, nest: record.nest.id };
}
