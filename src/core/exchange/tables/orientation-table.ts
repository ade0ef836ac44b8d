import { nightCell } from '../cells/date-cells.ts';
import { countCell, numberCell, numberList } from '../cells/number-cell.ts';
import { lampList } from '../cells/lamp-list.ts';
import { freeText, nameText } from '../cells/text-cell.ts';
import { type Finding, type RowValues, type TableSpec, number } from './table-spec.ts';

const circle = { min: 0, max: 360 };
const bearing = numberCell('degrees clockwise from true north', circle);

export const orientationTable: TableSpec = {
  table: 'orientation',
  columns: [
    { name: 'nest', cell: { ...nameText, expected: 'the name of a nest' }, required: true },
    { name: 'night', cell: nightCell, required: true },
    { name: 'zone', cell: nameText },
    { name: 'seaward_deg', cell: bearing },
    { name: 'tracks_counted', cell: countCell('tracks') },
    { name: 'disoriented', cell: countCell('hatchlings') },
    { name: 'track_bearings', cell: numberList('degrees', circle) },
    { name: 'leftmost_deg', cell: bearing },
    { name: 'rightmost_deg', cell: bearing },
    { name: 'modal_deg', cell: bearing },
    { name: 'light_source', cell: freeText },
    { name: 'moon', cell: freeText },
    { name: 'cloud', cell: freeText },
    { name: 'outcome', cell: freeText },
    { name: 'note', cell: freeText },
    { name: 'lamps', cell: lampList, optional: true, later: true },
    { name: 'reached_sea', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'found_dead', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'found_alive', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'fate_unknown', cell: countCell('hatchlings'), optional: true, later: true },
  ],
  uniqueBy: null,
  knownBy: ['nest', 'night'],
  check: astray,
};

function astray(values: RowValues): Finding[] {
  const [counted, disoriented] = [number(values, 'tracks_counted'), number(values, 'disoriented')];
  if (counted === null || disoriented === null || disoriented <= counted) return [];
  const message = `found ${disoriented}, more than the ${counted} of tracks_counted; expected a part of them. It is taken; check both.`;
  return [{ severity: 'warning', column: 'disoriented', message }];
}
