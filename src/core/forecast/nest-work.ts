import type { NestRecord } from '../log/season-record.ts';
import { middleLayNight } from './candidates.ts';
import type { Central } from './central.ts';
import type { Evidence } from './evidence.ts';
import type { NestPrior } from './prior.ts';
import type { Sharing } from './shared-effects.ts';

/** What one nest's record says, worked out once for as long as it does not change. */
export interface NestWork {
  readonly record: NestRecord;
  readonly evidence: Evidence;
  /** Of what was noted, by candidate night, then never. */
  readonly log: Float64Array;
  /** Null when the lay night is not known. */
  readonly central: Central | null;
  readonly prior: NestPrior | null;
  /** The prior as if the spread between nests were so many times what it is taken for. */
  readonly priorAt: (spreadFactor: number) => NestPrior | null;
  readonly never: number;
  /** What the nest says of the season level. */
  readonly byLevel: Float64Array;
}

/** What a nest brings to the shared effects of one season among others. */
export function sharingOf(work: NestWork, byLevel: Float64Array, season: number): Sharing {
  const { nest } = work.record;
  return {
    species: nest.species,
    zone: nest.zone,
    laid: middleLayNight(work.evidence.candidates),
    season,
    warmer_c: work.central?.warmer_c ?? 0,
    byLevel,
  };
}
