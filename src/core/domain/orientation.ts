import * as z from 'zod/mini';
import { LampText } from './lamp.ts';
import { NightText } from './night.ts';

const Bearing = z.number().check(z.gte(0), z.lte(360));

/** One record of which way hatchlings went, under the names of `orientation.csv`. Bearings from true north. */
export const OrientationDetails = z.object({
  night: NightText,
  zone: z.nullish(z.string()),
  seaward_deg: z.nullish(Bearing),
  tracks_counted: z.nullish(z.int().check(z.nonnegative())),
  disoriented: z.nullish(z.int().check(z.nonnegative())),
  track_bearings: z.nullish(z.array(Bearing)),
  leftmost_deg: z.nullish(Bearing),
  rightmost_deg: z.nullish(Bearing),
  modal_deg: z.nullish(Bearing),
  light_source: z.nullish(z.string()),
  moon: z.nullish(z.string()),
  cloud: z.nullish(z.string()),
  outcome: z.nullish(z.string()),
  note: z.nullish(z.string()),
  /** Every lamp that could be made out, each with its kind, colour and place. */
  lamps: z.nullish(z.array(LampText)),
  /** What is known to have become of the hatchlings that went astray. */
  reached_sea: z.nullish(z.int().check(z.nonnegative())),
  found_dead: z.nullish(z.int().check(z.nonnegative())),
  found_alive: z.nullish(z.int().check(z.nonnegative())),
  fate_unknown: z.nullish(z.int().check(z.nonnegative())),
});
export type OrientationDetails = z.infer<typeof OrientationDetails>;
