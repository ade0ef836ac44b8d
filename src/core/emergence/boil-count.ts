import { parseInstant } from '../domain/instant.ts';
import type { NestId } from '../domain/nest.ts';
import type { Night } from '../domain/night.ts';
import type { Counting, Emergence, VisitDetails } from '../domain/visit.ts';

/** What one person counted at one nest in one sit; null is "not counted" or "not said". */
export interface BoilCount {
  /** Id of the event that recorded it. */
  readonly id: string;
  readonly nest: NestId;
  readonly night: Night;
  readonly counter: string | null;
  readonly emergence: Emergence;
  /** Whether the note says itself what it counted, as one made by counting does. */
  readonly isCounted: boolean;
  readonly counting: Counting;
  readonly emerged: number;
  readonly reachedWater: number | null;
  readonly astray: number | null;
  readonly taken: number | null;
  readonly first_ms: number | null;
  readonly last_ms: number | null;
}

/** The event that a count is read from: a note of a visit. */
export interface CountedVisit {
  readonly id: string;
  readonly nest: NestId;
  readonly details: VisitDetails;
}

/**
 * The count in a note, or null when nothing came up or nobody counted. A note that does not say what it
 * counted is of the boil from `boilTracks` hatchlings on, the number from which the site takes a boil
 * to have happened; below that, of stragglers. Times of a sit stand for first and last where these
 * were not noted.
 */
export function countIn(visit: CountedVisit, night: Night, boilTracks: number): BoilCount | null {
  const { id, nest, details } = visit;
  const { emerged } = details;
  if (emerged === null || emerged === undefined || emerged === 0) return null;
  return {
    id,
    nest,
    night,
    counter: details.observer ?? null,
    emergence: details.emergence ?? (emerged >= boilTracks ? 'boil' : 'stragglers'),
    isCounted: typeof details.emergence === 'string',
    counting: details.counting ?? 'part',
    emerged,
    reachedWater: details.reached_water ?? null,
    astray: details.astray ?? null,
    taken: details.taken ?? null,
    first_ms: parseInstant(details.first_out ?? details.watched_from ?? ''),
    last_ms: parseInstant(details.last_out ?? details.watched_to ?? ''),
  };
}
