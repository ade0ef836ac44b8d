import { boilTracksOf } from '../domain/boil-tracks.ts';
import { type Night, parseNight } from '../domain/night.ts';
import { emergenceAt } from '../emergence/nest-emergence.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';
import { type InventoryDue, inventoryDue } from './inventory-due.ts';
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
      counted: lastCounted(nest),
    },
    inventoryRules(season.programme, nest.nest.species),
  );
}

/** Date of a nest's last inventory; null when there is none. */
function lastCounted({ inventories }: NestRecord): Night | null {
  return inventories.reduce<Night | null>((last, { fact }) => {
    const date = parseNight(fact.details.date);
    return date !== null && (last === null || date > last) ? date : last;
  }, null);
}
