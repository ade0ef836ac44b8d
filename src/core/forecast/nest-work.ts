import type { Night } from '../domain/night.ts';
import type { NestRecord } from '../log/season-record.ts';
import { type Candidates, middleLayNight } from './candidates.ts';
import type { Central } from './central.ts';
import type { Evidence } from './evidence.ts';
import { type NestPrior, priorOf } from './prior.ts';
import type { Sharing } from './shared-effects.ts';

/** What is worked out of one nest's record, besides its evidence. */
interface Worked {
  readonly record: NestRecord;
  readonly candidates: Candidates;
  /** Of what was noted, by candidate night, then never. */
  readonly log: Float64Array;
  /** Null when the lay night is not known. */
  readonly central: Central | null;
  readonly prior: NestPrior | null;
  readonly never: number;
  /** What the nest says of the season level. */
  readonly byLevel: Float64Array;
}

/** Since which night a nest is past coming up, by what is known of it; null where it is not. */
export interface Ended {
  readonly boil: Night | null;
  readonly goneFrom: Night | null;
  readonly inventoried: Night | null;
}

/** What one nest's record says, worked out once for as long as it does not change. */
export class NestWork implements Worked {
  readonly record: NestRecord;
  readonly candidates: Candidates;
  readonly log: Float64Array;
  readonly central: Central | null;
  readonly prior: NestPrior | null;
  readonly never: number;
  readonly byLevel: Float64Array;
  readonly ended: Ended;
  readonly #kept: Evidence | null;
  readonly #gather: () => Evidence;

  /**
   * `evidence` is kept at hand, or gathered anew whenever it is asked for (`keep` false): a whole
   * coast's would fill the memory.
   */
  constructor(worked: Worked, evidence: Evidence, gather: () => Evidence, keep: boolean) {
    this.record = worked.record;
    this.candidates = worked.candidates;
    this.log = worked.log;
    this.central = worked.central;
    this.prior = worked.prior;
    this.never = worked.never;
    this.byLevel = worked.byLevel;
    const { boil, mishaps, inventoried } = evidence;
    this.ended = { boil: boil?.night ?? null, goneFrom: mishaps.goneFrom, inventoried };
    this.#kept = keep ? evidence : null;
    this.#gather = gather;
  }

  get evidence(): Evidence {
    return this.#kept ?? this.#gather();
  }

  /** The prior as if the spread between nests were so many times what it is taken for. */
  priorAt(spreadFactor: number): NestPrior | null {
    return priorAt(this.central, this.candidates, spreadFactor);
  }
}

/** The prior of a nest at so many times its spread; null when its lay night is not known. */
export function priorAt(
  central: Central | null,
  { layNights }: Candidates,
  spreadFactor: number,
): NestPrior | null {
  if (central === null || layNights === null) return null;
  return priorOf(central.nights, central.spread_nights * spreadFactor, layNights);
}

/** What a nest brings to the shared effects of one season among others. */
export function sharingOf(work: NestWork, byLevel: Float64Array, season: number): Sharing {
  const { nest } = work.record;
  return {
    species: nest.species,
    zone: nest.zone,
    laid: middleLayNight(work.candidates),
    season,
    warmer_c: work.central?.warmer_c ?? 0,
    byLevel,
  };
}
