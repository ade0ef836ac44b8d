import type { Species } from '../domain/species.ts';
import type { DaySource } from './temperature-series.ts';

/** Share of a nest's days that rests on each source; they sum to 1. */
export type SourceShares = Readonly<Record<DaySource, number>>;

/**
 * Spread of nests about their central duration, in days at 55 days, when all their days rest on one
 * source: sand beside the clutch 2.5 and a logger elsewhere on the beach 3.0 (derived from field
 * studies: 2.2 d in a 133-nest Florida study, 2.6 d within studies pooled over 110 df), air and
 * rain 3.5 (guess), lay night and species alone 4.5 (derived, pooled over 12 beaches, 266 df).
 */
const SPREAD: SourceShares = { beside: 2.5, beach: 3, air: 3.5, none: 4.5 };

/**
 * What not knowing the species adds, so that 4.5 becomes 6.5 (derived from the species' medians).
 */
const UNKNOWN_SPECIES = Math.sqrt(6.5 ** 2 - 4.5 ** 2);

/**
 * The spread of a nest whose days rest on several sources. A source is taken to be off by the same
 * amount on all its days, and different sources independently: what a source adds to the spread is
 * its share of the days times what it adds when it is alone. Days still to come, and gaps, count
 * as resting on nothing: they add little while they are few.
 */
export function spread_nights55(species: Species | null, shares: SourceShares): number {
  const base = SPREAD.beside ** 2;
  const added = (source: DaySource): number => shares[source] ** 2 * (SPREAD[source] ** 2 - base);
  const variance = base + added('beach') + added('air') + added('none');
  return Math.sqrt(variance + (species === null ? UNKNOWN_SPECIES ** 2 : 0));
}
