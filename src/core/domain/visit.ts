import * as z from 'zod/mini';
import type { NestId } from './nest.ts';
import type { Night } from './night.ts';
import { InstantText } from './instant.ts';

export const Experience = z.enum(['novice', 'trained', 'lead']);
export type Experience = z.infer<typeof Experience>;

/** How far the sand above the clutch has sunk, in rising order. */
export const Surface = z.enum(['smooth', 'dip', 'depression', 'caved']);
export type Surface = z.infer<typeof Surface>;

/** How much scratching is heard, in rising order. */
export const Sound = z.enum(['quiet', 'occasional', 'steady', 'waterfall']);
export type Sound = z.infer<typeof Sound>;

export const Instrument = z.enum(['stethoscope', 'microphone', 'probe']);
export type Instrument = z.infer<typeof Instrument>;

export const Wind = z.enum(['calm', 'breeze', 'strong']);
export type Wind = z.infer<typeof Wind>;

export const Rain = z.enum(['none', 'light', 'heavy']);
export type Rain = z.infer<typeof Rain>;

/**
 * What befell a nest: sea over it, sea carried it off, animals took eggs, a storm buried it.
 * `burial` is ours: the tables of other programmes may not have it.
 */
export const Mishap = z.enum(['washover', 'washout', 'predation', 'burial']);
export type Mishap = z.infer<typeof Mishap>;

/** What came up in a sit: the boil, or hatchlings one by one before or after it. */
export const Emergence = z.enum(['boil', 'stragglers']);
export type Emergence = z.infer<typeof Emergence>;

/** Whether a counter took a part of those that came (their own side), or all of them. */
export const Counting = z.enum(['part', 'whole']);
export type Counting = z.infer<typeof Counting>;

/**
 * What is done before dark so that hatchlings find the water: holes filled, gear off the beach, lamps
 * noted for whoever may ask to have them put out, people near told.
 */
export const WayStep = z.enum(['holes', 'gear', 'lamps', 'people']);
export type WayStep = z.infer<typeof WayStep>;

const Share = z.number().check(z.gte(0), z.lte(1));
const Count = z.int().check(z.nonnegative());

/** What one person wrote of one visit, under the names of `visits.csv`; null or missing is "not looked". */
export const VisitDetails = z.object({
  kind: z.nullish(z.enum(['evening', 'morning'])),
  observer: z.nullish(z.string()),
  experience: z.nullish(Experience),
  surface: z.nullish(Surface),
  sound: z.nullish(Sound),
  instrument: z.nullish(Instrument),
  wind: z.nullish(Wind),
  rain: z.nullish(Rain),
  /** Hatchling tracks counted on a morning visit; 0 = looked, saw none. */
  tracks: z.nullish(Count),
  event: z.nullish(Mishap),
  watched_from: z.nullish(InstantText),
  watched_to: z.nullish(InstantText),
  /** Hatchlings seen emerging while watching; 0 = watched, none. */
  emerged: z.nullish(Count),
  /** Of a count of hatchlings: what it was of, and what became of those that came up. */
  emergence: z.nullish(Emergence),
  counting: z.nullish(Counting),
  first_out: z.nullish(InstantText),
  last_out: z.nullish(InstantText),
  reached_water: z.nullish(Count),
  /** Went another way than to the water, whatever became of them. */
  astray: z.nullish(Count),
  /** Taken by animals on the way. */
  taken: z.nullish(Count),
  /** The way to the water, as far as it was seen to before dark. */
  way: z.nullish(z.array(WayStep)),
  /** Meter events a minute, share of time active (0..1), decibels over the noise floor. */
  scratch_per_min: z.nullish(z.number().check(z.nonnegative())),
  active_share: z.nullish(Share),
  level_db: z.nullish(z.number()),
  /** Likelihood of what the meter heard under each sound state, scaled to sum to one: all four or none. */
  meter_quiet: z.nullish(Share),
  meter_occasional: z.nullish(Share),
  meter_steady: z.nullish(Share),
  meter_waterfall: z.nullish(Share),
  note: z.nullish(z.string()),
});
export type VisitDetails = z.infer<typeof VisitDetails>;

/** A stretch of watching at a nest. */
export interface Watch {
  readonly from_ms: number;
  readonly to_ms: number;
}

/** One visit to a nest as the calculations read it; null is "not looked" or "not said". */
export interface Visit {
  /** The id of the event that recorded it. */
  readonly id: string;
  readonly nest: NestId;
  readonly at_ms: number;
  readonly night: Night;
  /** Which half of the night: looked at in the evening (or while dark), or at dawn. */
  readonly half: 'evening' | 'dawn';
  readonly observer: string | null;
  readonly experience: Experience | null;
  readonly surface: Surface | null;
  readonly sound: Sound | null;
  readonly instrument: Instrument | null;
  readonly wind: Wind | null;
  readonly rain: Rain | null;
  readonly tracks: number | null;
  readonly mishap: Mishap | null;
  readonly watch: Watch | null;
  /** Hatchlings seen emerging in the watch; null when not a watch or not counted. */
  readonly emerged: number | null;
  readonly scratch_per_min: number | null;
  readonly active_share: number | null;
  readonly level_db: number | null;
  /** Likelihood of what a meter heard, by sound state in rising order; null when it gave none. */
  readonly meter: readonly number[] | null;
  readonly note: string | null;
}

/** The word for what was heard: the person's own, else that of the meter where it is likelier than not. */
export function soundSaid({ sound, meter }: Pick<Visit, 'sound' | 'meter'>): Sound | null {
  if (sound !== null || meter === null) return sound;
  return Sound.options.find((_, state) => (meter[state] ?? 0) > 0.5) ?? null;
}
