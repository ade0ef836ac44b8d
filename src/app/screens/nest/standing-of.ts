import type { NestId } from '../../../core/domain/nest.ts';
import type { NestForecast, NestOut, SeasonForecast } from '../../../core/forecast/forecast.ts';

/** Where a nest stands tonight. */
export type NestStanding =
  /** The odds have not been worked out yet. */
  | { readonly kind: 'reckoning' }
  | { readonly kind: 'waiting'; readonly forecast: NestForecast }
  | { readonly kind: 'out'; readonly out: NestOut };

/** Where a nest stands in a forecast; one that is not in it (yet) is being reckoned. */
export function standingOf(season: SeasonForecast | null, nest: NestId): NestStanding {
  const forecast = season?.nests.find(({ record }) => record.nest.id === nest);
  if (forecast !== undefined) return { kind: 'waiting', forecast };
  const out = season?.out.find(({ record }) => record.nest.id === nest);
  return out === undefined ? { kind: 'reckoning' } : { kind: 'out', out };
}
