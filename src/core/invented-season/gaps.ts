import { randomStream } from '../numerics/random.ts';
import type { InventedTable } from './tables.ts';

/** Columns that people leave blank; never a nest's name, a time, a mishap or what a watch saw. */
const FORGETTABLE = new Set([
  'experience',
  'surface',
  'sound',
  'instrument',
  'wind',
  'rain',
  'tracks',
  'sand_c',
  'air_c',
  'rain_mm',
  'clutch',
  'relocated',
  'screened',
  'light_exposure',
]);

/**
 * The tables with holes: each forgettable cell is blank with probability `share`, and each visit
 * that tells of no mishap and no watch is missing with the same. Nothing else changes.
 */
export function withGaps(
  seed: number,
  share: number,
  tables: readonly InventedTable[],
): InventedTable[] {
  return tables.map((table) => {
    const random = randomStream(seed, 'gaps', table.file);
    const forgettable = table.columns.map((column) => FORGETTABLE.has(column));
    const at = (column: string): number => table.columns.indexOf(column);
    const [event, watched] = [at('event'), at('watched_from')];
    const rows = table.rows.flatMap((row) => {
      const dropped = random.chance(share) && table.file === 'visits.csv';
      if (dropped && row[event] === '' && row[watched] === '') return [];
      return [row.map((cell, column) => (forgettable[column] && random.chance(share) ? '' : cell))];
    });
    return { ...table, rows };
  });
}
