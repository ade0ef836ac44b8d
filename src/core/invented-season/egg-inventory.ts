import { randomStream } from '../numerics/random.ts';
import type { BeachClock } from './beach-clock.ts';
import type { KnownNest } from './known-nests.ts';
import type { InventedTable } from './tables.ts';

/**
 * The contents that a permit holder counted when the record of a nest ended. Counts of shells are
 * a little off, as fragments are; a nest that went to sea has none.
 */
export function inventoryTable(
  seed: number,
  nests: readonly KnownNest[],
  clock: BeachClock,
): InventedTable {
  const rows = nests.flatMap((known) => {
    const { ends, fate, clutch } = known;
    if (ends?.counted !== true) return [];
    const random = randomStream(seed, 'inventory', clutch.index);
    const { shells, unhatched, pippedDead, depredated } = fate.eggs;
    if (shells + unhatched + pippedDead === 0) return [];
    const below = fate.outcome === 'lost' ? Math.min(shells, 4) : belowOn(known, ends.night);
    const dead = fate.outcome === 'lost' ? below : random.binomial(below, 0.35);
    const pippedLive = fate.outcome === 'boil' && random.chance(0.1) ? Math.min(1, unhatched) : 0;
    const fragments = shells > 20 ? Math.round(random.normal(0, shells * 0.008)) : 0;
    return [
      {
        date: ends.night + 1,
        cells: [
          clutch.nest,
          clock.date(ends.night + 1),
          String(Math.max(below, shells + fragments)),
          String(unhatched - pippedLive),
          String(pippedLive),
          String(pippedDead),
          String(below - dead),
          String(dead),
          String(depredated),
          known.boilKnown === null ? 'counted as overdue' : '',
        ],
      },
    ];
  });
  rows.sort((one, other) => one.date - other.date);
  return {
    file: 'inventory.csv',
    columns: [
      'nest',
      'date',
      'shells',
      'unhatched',
      'pipped_live',
      'pipped_dead',
      'live_in_nest',
      'dead_in_nest',
      'depredated',
      'note',
    ],
    rows: rows.map(({ cells }) => cells),
  };
}

/** Hatched and still in the nest by the end of a night: left behind, or yet to come out. */
function belowOn({ fate, groups }: KnownNest, night: number): number {
  if (fate.outcome === 'lost') return 0;
  const { shells } = fate.eggs;
  let out = 0;
  for (const { moment, hatchlings } of groups) if (moment < night + 1) out += hatchlings;
  return Math.max(0, shells - out);
}
