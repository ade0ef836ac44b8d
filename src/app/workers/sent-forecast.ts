import type { NestId } from '../../core/domain/nest.ts';
import { addNights } from '../../core/domain/night.ts';
import type {
  NestForecast,
  NestOut,
  NightChance,
  SeasonForecast,
} from '../../core/forecast/forecast.ts';
import type { NestRecord, SeasonRecord } from '../../core/log/season-record.ts';

type Named<Entry extends { readonly record: NestRecord }> = Omit<Entry, 'record'> & {
  readonly nest: NestId;
};

/** A nest's forecast, with the number of nights that the chances in `SentForecast` give for it. */
type NamedNest = Omit<Named<NestForecast>, 'distribution'> & { readonly nights: number };

/**
 * A forecast as it travels between worker and page: nests by their names, and what is to be said of
 * each of their nights as one row of numbers, since tens of thousands of small things travel slowly.
 */
export interface SentForecast extends Omit<SeasonForecast, 'nests' | 'out'> {
  readonly nests: readonly NamedNest[];
  readonly out: readonly Named<NestOut>[];
  /** Nest after nest the chance of the forecast's own night and of each later one, in order. */
  readonly chances: Float64Array<ArrayBuffer>;
}

/** The forecast without what the page has itself. */
export function withNames(forecast: SeasonForecast): SentForecast {
  const chances = forecast.nests.flatMap(({ distribution }) => distribution.map(({ p }) => p));
  const nests = forecast.nests.map(({ distribution, ...rest }) => ({
    ...named(rest),
    nights: distribution.length,
  }));
  return { ...forecast, nests, out: forecast.out.map(named), chances: Float64Array.from(chances) };
}

/** The forecast joined with the nests of the record it was asked for; throws when one is missing. */
export function withRecords(sent: SentForecast, record: SeasonRecord): SeasonForecast {
  const { chances, ...forecast } = sent;
  let from = 0;
  const nests = sent.nests.map(({ nest, nights, ...rest }): NestForecast => {
    const row = chances.subarray(from, from + nights);
    from += nights;
    return withNights({ ...rest, record: recordOf(nest, record) }, row, sent.moment.night);
  });
  const out = sent.out.map(({ nest, ...rest }) => ({ ...rest, record: recordOf(nest, record) }));
  return { ...forecast, nests, out };
}

/** Few nests are ever asked for all their nights: each has them made when it is. */
function withNights(
  nest: Omit<NestForecast, 'distribution'>,
  chances: Float64Array,
  tonight: NightChance['night'],
): NestForecast {
  let made: readonly NightChance[] | null = null;
  return {
    ...nest,
    get distribution() {
      made ??= Array.from(chances, (p, ahead) => ({ night: addNights(tonight, ahead), p }));
      return made;
    },
  };
}

function recordOf(nest: NestId, { nests }: SeasonRecord): NestRecord {
  const record = nests.get(nest);
  if (record === undefined) throw new RangeError(`Nest ${nest} is not on this record.`);
  return record;
}

function named<Entry extends { readonly record: NestRecord }>(entry: Entry): Named<Entry> {
  const { record, ...rest } = entry;
  return { ...rest, nest: record.nest.id };
}
