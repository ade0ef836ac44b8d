import { calendarDateCell } from '../cells/date-cells.ts';
import { countCell } from '../cells/number-cell.ts';
import { freeText, nameText } from '../cells/text-cell.ts';
import type { TableSpec } from './table-spec.ts';

export const inventoryTable: TableSpec = {
  table: 'inventory',
  columns: [
    { name: 'nest', cell: { ...nameText, expected: 'the name of a nest' }, required: true },
    { name: 'date', cell: calendarDateCell, required: true },
    { name: 'shells', cell: countCell('shells') },
    { name: 'unhatched', cell: countCell('eggs') },
    { name: 'pipped_live', cell: countCell('hatchlings') },
    { name: 'pipped_dead', cell: countCell('hatchlings') },
    { name: 'live_in_nest', cell: countCell('hatchlings') },
    { name: 'dead_in_nest', cell: countCell('hatchlings') },
    { name: 'depredated', cell: countCell('eggs') },
    { name: 'note', cell: freeText },
  ],
  uniqueBy: null,
  knownBy: ['nest', 'date'],
  check: () => [],
};
