import { Experience } from '../../domain/visit.ts';
import { Role } from '../../domain/volunteer.ts';
import { clockCell, nightCell } from '../cells/date-cells.ts';
import { countCell } from '../cells/number-cell.ts';
import { nameList, nameText } from '../cells/text-cell.ts';
import { oneOf, yesNo } from '../cells/word-cells.ts';
import type { Column, TableSpec } from './table-spec.ts';

const volunteer: Column = {
  name: 'volunteer',
  cell: { ...nameText, expected: 'the name of a volunteer' },
  required: true,
};

export const volunteersTable: TableSpec = {
  table: 'volunteers',
  columns: [
    volunteer,
    { name: 'experience', cell: oneOf(Experience.options) },
    { name: 'zones', cell: nameList },
    { name: 'max_shifts_week', cell: countCell('shifts a week') },
    { name: 'team', cell: nameText },
    { name: 'role', cell: oneOf(Role.options), optional: true },
    { name: 'back_to_back', cell: yesNo, optional: true, later: true },
  ],
  uniqueBy: ['volunteer'],
  knownBy: ['volunteer'],
  check: () => [],
};

export const availabilityTable: TableSpec = {
  table: 'availability',
  columns: [
    volunteer,
    { name: 'night', cell: nightCell, required: true },
    { name: 'from', cell: clockCell },
    { name: 'to', cell: clockCell },
    { name: 'available', cell: yesNo, optional: true, later: true },
  ],
  uniqueBy: null,
  knownBy: ['volunteer', 'night'],
  check: () => [],
};
