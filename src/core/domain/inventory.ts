import * as z from 'zod/mini';
import { NightText } from './night.ts';

const Count = z.int().check(z.nonnegative());

/** What success is reckoned from: the eggs counted at laying, or what was found in the nest. */
export const Denominator = z.enum(['laid', 'contents']);
export type Denominator = z.infer<typeof Denominator>;

/** The contents of one nest counted by a permit holder, under the names of `inventory.csv`. */
export const InventoryDetails = z.object({
  date: NightText,
  shells: z.nullish(Count),
  unhatched: z.nullish(Count),
  pipped_live: z.nullish(Count),
  pipped_dead: z.nullish(Count),
  live_in_nest: z.nullish(Count),
  dead_in_nest: z.nullish(Count),
  depredated: z.nullish(Count),
  note: z.nullish(z.string()),
  /** Kept with the counts, so that a figure can be made again as it was. */
  denominator: z.nullish(Denominator),
  /** Eggs counted at laying, as this inventory took them; an egg taken as a sample is one of them. */
  clutch: z.nullish(Count),
});
export type InventoryDetails = z.infer<typeof InventoryDetails>;
