import * as z from 'zod/mini';
import { NightText } from './night.ts';
import { Experience } from './visit.ts';

/** What a person may do: run the programme, sit, dig and inventory, or read only. */
export const Role = z.enum(['lead', 'sitter', 'permit holder', 'reader']);
export type Role = z.infer<typeof Role>;

/** One volunteer, under the names of `volunteers.csv`; `role` is ours. */
export const VolunteerDetails = z.object({
  experience: z.nullish(Experience),
  /** Zones the person sits in; empty or missing = any. */
  zones: z.nullish(z.array(z.string())),
  max_shifts_week: z.nullish(z.int().check(z.nonnegative())),
  team: z.nullish(z.string()),
  role: z.nullish(Role),
  /** Willing to sit two nights in a row; missing = no. */
  back_to_back: z.nullish(z.boolean()),
});
export type VolunteerDetails = z.infer<typeof VolunteerDetails>;

/** A time of day on the programme's clocks. */
export const Clock = z
  .string()
  .check(z.regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day written like 21:30'));

/** When a volunteer can sit on one night; times on the programme's clocks, missing = all night. */
export const AvailabilityDetails = z.object({
  night: NightText,
  from: z.nullish(Clock),
  to: z.nullish(Clock),
  /** False: cannot sit on this night, whatever was said of it before; missing = can. */
  available: z.nullish(z.boolean()),
});
export type AvailabilityDetails = z.infer<typeof AvailabilityDetails>;
