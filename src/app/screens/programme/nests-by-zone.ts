import type { Nest } from '../../../core/domain/nest.ts';

/** How many nests lie in each zone; those of no zone count under the empty name. */
export function nestsByZone(nests: Iterable<{ readonly nest: Nest }>): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { nest } of nests) {
    const name = nest.zone ?? '';
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return counts;
}
