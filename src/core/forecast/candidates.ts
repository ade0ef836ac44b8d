import { type Night, addNights } from '../domain/night.ts';
import type { NestRecord } from '../log/season-record.ts';
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

/**
 * The candidate nights of a nest. One of unknown lay night may come up on any night from the one
 * before it was first seen to `longest` nights on, or from `tonight` on when it was never seen.
 */
export function candidatesOf({ nest, visits }: NestRecord, tonight: Night): Candidates {
  if (nest.layNight !== null) {
    const layNights = Math.max(1, (nest.layNightLatest ?? nest.layNight) - nest.layNight + 1);
    const first = addNights(nest.layNight, shortest);
    return { first, count: durations + layNights - 1, layNights };
  }
  const first = visits[0] === undefined ? tonight : addNights(visits[0].night, -1);
  return { first, count: longest, layNights: null };
}

/** The middle of the nights on which a nest may have been laid, as a night number; null = unknown. */
export function middleLayNight({ first, layNights }: Candidates): number | null {
  return layNights === null ? null : first - shortest + (layNights - 1) / 2;
}
