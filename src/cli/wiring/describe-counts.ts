import type { Comparison } from '../../core/exchange/reconcile/reconcile.ts';
import type { RowCount } from '../../core/exchange/season-folder/read-season-folder.ts';
import { tablesInOrder } from '../../core/exchange/tables/all-tables.ts';
import type { TableName } from '../../core/domain/event.ts';

/** `nests 38, visits 410 of 412`: the rows of each table that are good. */
export function describeCounts(counts: Readonly<Partial<Record<TableName, RowCount>>>): string {
  const parts = tablesInOrder.flatMap(({ table }) => {
    const count = counts[table];
    if (count === undefined) return [];
    const { rows, taken } = count;
    return [`${table} ${rows === taken ? rows : `${taken} of ${rows}`}`];
  });
  return parts.length === 0 ? 'no tables' : parts.join(', ');
}

/** `nests 38 (3 corrected, 35 as they stand)`: what an import does to each table. */
export function describeComparisons(
  counts: Readonly<Partial<Record<TableName, Comparison>>>,
): string {
  const parts = tablesInOrder.flatMap(({ table }) => {
    const count = counts[table];
    if (count === undefined) return [];
    const { fresh, corrected, same } = count;
    return [`${table}: ${fresh} new, ${corrected} corrected, ${same} as they stand`];
  });
  return parts.length === 0 ? 'no tables' : parts.join('; ');
}
