import type { BoilCount } from '../../../core/emergence/boil-count.ts';
import type { BoilDesk } from './boil-desk.svelte.ts';

/** The counts on record, the one that is running as it stands on the screen. */
export function countsWithMine(counts: readonly BoilCount[], desk: BoilDesk): readonly BoilCount[] {
  return counts
    .map((count) =>
      count.id === desk.note
        ? {
            ...count,
            emergence: desk.emergence,
            counting: desk.counting,
            emerged: desk.emerged,
            reachedWater: desk.fate('reached_water'),
            astray: desk.fate('astray'),
            taken: desk.fate('taken'),
            last_ms: desk.last_ms,
          }
        : count,
    )
    .filter(({ emerged }) => emerged > 0);
}
