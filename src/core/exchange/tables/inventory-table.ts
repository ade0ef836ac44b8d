import { calendarDateCell } from '../cells/date-cells.ts';
import { countCell } from '../cells/number-cell.ts';
import { freeText, nameText } from '../cells/text-cell.ts';
import { oneOf } from '../cells/word-cells.ts';
import { Denominator } from '../../domain/inventory.ts';
import { type Finding, type RowValues, type TableSpec, number } from './table-spec.ts';

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
    { name: 'denominator', cell: oneOf(Denominator.options), optional: true, later: true },
    { name: 'clutch', cell: countCell('eggs at laying'), optional: true, later: true },
  ],
  uniqueBy: null,
  knownBy: ['nest', 'date'],
  check: leftBehind,
};

/** Hatchlings still in the nest come out of shells that were counted. */
function leftBehind(values: RowValues): Finding[] {
  const shells = number(values, 'shells');
  const left = (number(values, 'live_in_nest') ?? 0) + (number(values, 'dead_in_nest') ?? 0);
  if (shells === null || left <= shells) return [];
  const message = `found ${shells}, while ${left} hatchlings were still in the nest; expected a shell for each. It is taken; check both.`;
  return [{ severity: 'warning', column: 'shells', message }];
}
