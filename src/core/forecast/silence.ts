import type { Night } from '../domain/night.ts';
import type { Visit } from '../domain/visit.ts';
import type { SeasonRecord } from '../log/season-record.ts';

/** Finds from which one may say how a programme keeps its record. */
const leastFinds = 2;
/** It writes down finds only when there are more than so many finds for each look that found nothing. */
const findsForBlank = 4;
/** Chance that a boil is not reported where finds alone are written down: as tracks missed on a calm dawn (guess). */
const logUnreported = Math.log(0.05);

/**
 * What it tells that nobody reported a boil, on a beach where finds are written down and mornings
 * without any are not.
 */
export interface Silence {
  /** Nights from this one on have not been looked back on yet. */
  readonly before: Night;
  /** Nights whose dawn has a look of its own. */
  readonly looked: ReadonlySet<Night>;
}

/**
 * Whether a programme writes down boils and tracks alone, and not the mornings and watches that
 * found nothing, by what was noted up to a moment. A record of dates of emergence is such a one.
 */
export function writesFindsOnly(
  { nests }: SeasonRecord,
  boilTracks: number,
  until_ms: number,
): boolean {
  let finds = 0;
  let blanks = 0;
  for (const { visits } of nests.values()) {
    for (const { at_ms, tracks, emerged } of visits) {
      if (at_ms > until_ms) break;
      if (tracks === 0 || emerged === 0) blanks++;
      else if ((tracks ?? 0) >= boilTracks || (emerged ?? 0) >= boilTracks) finds++;
    }
  }
  return finds >= leastFinds && finds > findsForBlank * blanks;
}

/** The silence about one nest on an evening. */
export function silenceOn(tonight: Night, visits: readonly Visit[]): Silence {
  const looked = new Set<Night>();
  for (const { night, half, tracks } of visits) {
    if (half === 'dawn' && tracks !== null) looked.add(night);
  }
  return { before: tonight, looked };
}

/** Log-likelihood of the silence if the boil was on a night; 0 for nights that are still to come. */
export function logOfSilence({ before, looked }: Silence, night: number): number {
  return night < before && !looked.has(night as Night) ? logUnreported : 0;
}
