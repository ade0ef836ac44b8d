import type { Night } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { clockWords } from './plan-text.ts';
import { sittersOf } from './sitters.ts';

/**
 * The nights on which one person can sit, with the hours in words (`21:00 to 01:00`, empty = all night).
 * Nights on which the person cannot are missing.
 */
export function offersOf(
  record: SeasonRecord,
  person: string,
  nights: readonly Night[],
): ReadonlyMap<Night, string> {
  const free = sittersOf(record, nights).find(({ name }) => name === person)?.free;
  const { zone } = record;
  return new Map(
    nights.flatMap((night) => {
      const [window] = free?.get(night) ?? [];
      if (window === undefined) return [];
      const from = window.from_ms === -Infinity ? '' : `from ${clockWords(window.from_ms, zone)}`;
      const to = window.to_ms === Infinity ? '' : `to ${clockWords(window.to_ms, zone)}`;
      return [[night, [from, to].filter((part) => part !== '').join(' ')] as const];
    }),
  );
}
