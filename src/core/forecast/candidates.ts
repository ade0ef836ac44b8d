import { type Night, addNights } from '../domain/night.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { durations, longest, shortest } from './incubation.ts';

/** The nights on which a nest may come up, in a row from the first. */
export interface Candidates {
  readonly first: Night;
  readonly count: number;
  /**
   * On how many nights it may have been laid; null when the lay night is not known: then every
   * candidate night is as likely as the next, and cues alone move it.
   */
  readonly layNights: number | null;
}

/** The nights from the first to the last on which any nest of known lay night may come up. */
export interface SeasonSpan {
  readonly first: Night;
  readonly last: Night;
}

/** The span of a season by its known lay nights; null when there is none. */
export function seasonSpan(record: SeasonRecord): SeasonSpan | null {
  let first: Night | null = null;
  let last: Night | null = null;
  for (const { nest } of record.nests.values()) {
    if (nest.layNight === null || nest.layNightLatest === null) continue;
    if (first === null || nest.layNight < first) first = nest.layNight;
    if (last === null || nest.layNightLatest > last) last = nest.layNightLatest;
  }
  if (first === null || last === null) return null;
  return { first: addNights(first, shortest), last: addNights(last, longest) };
}

/**
 * The candidate nights of a nest. One of unknown lay night may come up on any night of the season
 * from the night before it was first seen, or within `longest` nights of `fallback` when nothing
 * at all is known.
 */
export function candidatesOf(
  { nest, visits }: NestRecord,
  span: SeasonSpan | null,
  fallback: Night,
): Candidates {
  if (nest.layNight !== null) {
    const layNights = Math.max(1, (nest.layNightLatest ?? nest.layNight) - nest.layNight + 1);
    const first = addNights(nest.layNight, shortest);
    return { first, count: durations + layNights - 1, layNights };
  }
  const seen = visits[0] === undefined ? null : addNights(visits[0].night, -1);
  const anchor = seen ?? span?.first ?? fallback;
  const first = span !== null && span.first > anchor ? span.first : anchor;
  const latest = addNights(seen ?? first, longest + 1);
  const last = span !== null && seen === null ? span.last : latest;
  return { first, count: Math.max(1, last - first + 1), layNights: null };
}
