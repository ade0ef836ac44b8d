import { celsiusCell } from '../cells/celsius-cell.ts';
import { calendarDateCell } from '../cells/date-cells.ts';
import { numberCell } from '../cells/number-cell.ts';
import { nameText } from '../cells/text-cell.ts';
import type { TableSpec } from './table-spec.ts';

export const conditionsTable: TableSpec = {
  table: 'conditions',
  columns: [
    { name: 'date', cell: calendarDateCell, required: true },
    { name: 'zone', cell: nameText },
    { name: 'sand_c', cell: celsiusCell(-10, 60) },
    { name: 'air_c', cell: celsiusCell(-30, 60) },
    { name: 'rain_mm', cell: numberCell('millimetres', { min: 0 }) },
  ],
  uniqueBy: ['date', 'zone'],
  knownBy: ['date', 'zone'],
  check: () => [],
};
