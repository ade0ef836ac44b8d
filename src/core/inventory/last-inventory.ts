import { type Night, parseNight } from '../domain/night.ts';
import type { InventoryDetails } from '../domain/inventory.ts';
import type { NestRecord } from '../log/season-record.ts';

/** The inventory of a nest with the latest date, the one recorded last where two share it. */
export function lastInventory({ inventories }: Pick<NestRecord, 'inventories'>): {
  readonly date: Night;
  readonly details: InventoryDetails;
} | null {
  return inventories.reduce<{ date: Night; details: InventoryDetails } | null>((last, { fact }) => {
    const { details } = fact;
    const date = parseNight(details.date);
    return date !== null && (last === null || date >= last.date) ? { date, details } : last;
  }, null);
}
