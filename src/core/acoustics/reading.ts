import type { Sound } from '../domain/visit.ts';
import type { ByState } from './state-likelihood.ts';
import type { Warning } from './warnings.ts';

/** One scratch or fall of sand. */
export interface HeardEvent {
  /** Its onset, seconds from the start. */
  readonly at_s: number;
  /** How far it stands over the noise floor, decibels. */
  readonly over_db: number;
}

/** What a listening has found so far. */
export interface Reading {
  readonly heard_s: number;
  /** Seconds that counted: without footsteps, rain and the like. */
  readonly usable_s: number;
  readonly events: readonly HeardEvent[];
  /** Corrected for those that hide behind another. Null while nothing counted. */
  readonly scratch_per_min: number | null;
  readonly active_share: number | null;
  /** Median height of the events over the noise floor, dB; 0 when there was none. */
  readonly level_db: number;
  /** The likeliest state, or that it cannot be told. */
  readonly state: Sound | 'can not tell';
  /** Likelihood of what was heard under each state, scaled to sum to one. */
  readonly likelihood: ByState;
  readonly warnings: readonly Warning[];
  /** Somebody walks by right now. */
  readonly isWalking: boolean;
}
