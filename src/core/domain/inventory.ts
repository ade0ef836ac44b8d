import * as z from 'zod/mini';
import { NightText } from './night.ts';

const Count = z.int().check(z.nonnegative());

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
});
export type InventoryDetails = z.infer<typeof InventoryDetails>;
