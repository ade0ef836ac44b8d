import { boilTracksOf } from '../domain/boil-tracks.ts';
import { emergenceAt } from '../emergence/nest-emergence.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { type InventoryDue, inventoryDue } from './inventory-due.ts';
import { lastInventory } from './last-inventory.ts';
import { inventoryRules } from './inventory-rules.ts';

/** When one nest of a season is to be inventoried, by what is on record and the rules of the site. */
export function dueOf(nest: NestRecord, season: SeasonRecord): InventoryDue {
  const { boil, lastSeen } = emergenceAt(nest, season.zone, boilTracksOf(season.programme));
  const washedOut = nest.visits.find(({ mishap }) => mishap === 'washout')?.night ?? null;
  return inventoryDue(
    {
      layNightLatest: nest.nest.layNightLatest,
      boil,
      lastSeen,
      washedOut,
      counted: lastInventory(nest)?.date ?? null,
    },
    inventoryRules(season.programme, nest.nest.species),
  );
}
