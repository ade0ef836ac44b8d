import type { Night } from '../domain/night.ts';
import type { NestRecord } from '../log/season-record.ts';

/** The evening that is asked about, and the moment up to which notes count. */
export interface Moment {
  readonly night: Night;
  /** Epoch milliseconds; a note made later is not used. */
  readonly at_ms: number;
}

export interface NightChance {
  readonly night: Night;
  readonly p: number;
}

/** What the app says of one nest that may still come up. All probabilities are unconditional. */
export interface NestForecast {
  readonly record: NestRecord;
  /** 1 for the nest most likely to boil tonight. */
  readonly rank: number;
  readonly pTonight: number;
  /** Tonight and the two nights after. */
  readonly pNext3: number;
  /** It has come up on an earlier night and nobody saw. */
  readonly pAlready: number;
  readonly pNever: number;
  /** Tonight and each later night, in order, none left out; with `pAlready` and `pNever` they sum to 1. */
  readonly distribution: readonly NightChance[];
  /** Given that it has yet to come up; null when next to nothing is left for that. */
  readonly medianNight: Night | null;
  /** Bounds of the central 80 %, given that it has yet to come up. */
  readonly lowNight: Night | null;
  readonly highNight: Night | null;
  /** Boils met tonight that ten minutes of looking and listening here are expected to add. */
  readonly checkValue: number;
  /** Hatchlings expected to go astray tonight if nobody sits here. */
  readonly atStake: number;
  /** Nights since laying, youngest and oldest possible; null when the lay night is not known. */
  readonly age: { readonly from: number; readonly to: number } | null;
}

/** A nest that is out of the ranking, and since which night. */
export interface NestOut {
  readonly record: NestRecord;
  readonly reason: 'boiled' | 'washed out' | 'inventoried';
  readonly night: Night;
}

/** How early or late this season runs, as learned from all its nests. */
export interface SeasonLevel {
  /**
   * Posterior mean and SD on the log scale of incubation, on top of what temperature says where
   * there is any; positive = late.
   */
  readonly mean: number;
  readonly sd: number;
  /**
   * Against the usual incubation of the species, as days at 55: what the temperature says of the
   * nests, and the level on top of it.
   */
  readonly days: number;
  /** Nests whose boil is known, and nests that are old enough to speak by not having come up. */
  readonly emerged: number;
  readonly waiting: number;
  /** False when what the nests share could not be settled; the odds are then less sure. */
  readonly converged: boolean;
}

/** The whole season as it stands at one moment, nests in rank order. */
export interface SeasonForecast {
  readonly moment: Moment;
  readonly level: SeasonLevel;
  /** Moonlight in the hours of emergence, 0 none to 1 a full moon all the while. */
  readonly moonlight: number;
  readonly nests: readonly NestForecast[];
  readonly out: readonly NestOut[];
}

/** One piece of evidence and the factor by which it multiplied the odds of a boil tonight. */
export interface Reason {
  readonly kind: 'age' | 'season' | 'surface' | 'sound' | 'watch' | 'tracks' | 'mishap';
  /** The event that recorded it; null for age and season. */
  readonly visit: string | null;
  readonly text: string;
  readonly factor: number;
}
