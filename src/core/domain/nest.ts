import * as z from 'zod/mini';
import { type Night, NightText } from './night.ts';
import { Species } from './species.ts';

/** The name a programme gives a marked nest; printed on its marker. */
export const NestId = z.string().check(z.minLength(1)).brand<'NestId'>();
export type NestId = z.infer<typeof NestId>;

/** What is written of a nest, under the names of `nests.csv`; a missing key or null is not known. */
export const NestDetails = z.object({
  species: z.nullish(Species),
  lay_night: z.nullish(NightText),
  lay_night_latest: z.nullish(NightText),
  zone: z.nullish(z.string()),
  latitude: z.nullish(z.number().check(z.gte(-90), z.lte(90))),
  longitude: z.nullish(z.number().check(z.gte(-180), z.lte(180))),
  /** Distance along the shore from the zone's origin, metres. */
  shore_m: z.nullish(z.number()),
  /** Eggs. */
  clutch: z.nullish(z.int().check(z.nonnegative())),
  relocated: z.nullish(z.boolean()),
  screened: z.nullish(z.boolean()),
  /** 0 dark .. 3 lamps in direct view. */
  light_exposure: z.nullish(z.int().check(z.gte(0), z.lte(3))),
});
export type NestDetails = z.infer<typeof NestDetails>;

/** A marked nest as the calculations read it; null is not known. */
export interface Nest {
  readonly id: NestId;
  readonly species: Species | null;
  /** First night it may have been laid; null when the lay night is not known at all. */
  readonly layNight: Night | null;
  /** Last night it may have been laid; equal to `layNight` when that is certain. */
  readonly layNightLatest: Night | null;
  readonly zone: string | null;
  readonly latitude_deg: number | null;
  readonly longitude_deg: number | null;
  readonly shore_m: number | null;
  readonly clutch_eggs: number | null;
  readonly relocated: boolean | null;
  readonly screened: boolean | null;
  readonly lightExposure: number | null;
}
