import * as z from 'zod/mini';
import { NightText } from './night.ts';

/** Sand and weather of one date, under the names of `conditions.csv`; `zone` missing = whole beach. */
export const ConditionsDetails = z.object({
  date: NightText,
  zone: z.nullish(z.string()),
  /** Daily mean at nest depth, degrees Celsius. */
  sand_c: z.nullish(z.number().check(z.gte(-10), z.lte(60))),
  air_c: z.nullish(z.number().check(z.gte(-30), z.lte(60))),
  rain_mm: z.nullish(z.number().check(z.nonnegative())),
});
export type ConditionsDetails = z.infer<typeof ConditionsDetails>;
