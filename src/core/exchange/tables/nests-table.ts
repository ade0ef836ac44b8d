import { parseNight } from '../../domain/night.ts';
import { nightCell } from '../cells/date-cells.ts';
import { countCell, numberCell } from '../cells/number-cell.ts';
import { nameText } from '../cells/text-cell.ts';
import { speciesCell, yesNo } from '../cells/word-cells.ts';
import { type Finding, type RowValues, type TableSpec, number, text } from './table-spec.ts';

export const nestsTable: TableSpec = {
  table: 'nests',
  columns: [
    { name: 'nest', cell: { ...nameText, expected: 'the name of a nest' }, required: true },
    { name: 'species', cell: speciesCell },
    { name: 'lay_night', cell: nightCell },
    { name: 'lay_night_latest', cell: nightCell },
    { name: 'zone', cell: nameText },
    { name: 'latitude', cell: numberCell('degrees north', { min: -90, max: 90 }) },
    { name: 'longitude', cell: numberCell('degrees east', { min: -180, max: 180 }) },
    { name: 'shore_m', cell: numberCell('metres along the shore') },
    { name: 'clutch', cell: countCell('eggs') },
    { name: 'relocated', cell: yesNo },
    { name: 'screened', cell: yesNo },
    { name: 'light_exposure', cell: countCell('', { min: 0, max: 3 }) },
  ],
  uniqueBy: ['nest'],
  knownBy: ['nest'],
  check: (values) => [...layNights(values), ...position(values)],
};

/** A lay range wider than this is more likely a slip of the pen (common practice, no source). */
const WIDEST_RANGE_NIGHTS = 30;

function layNights(values: RowValues): Finding[] {
  const [first, latest] = [text(values, 'lay_night'), text(values, 'lay_night_latest')];
  if (latest === null) return [];
  const column = 'lay_night_latest';
  if (first === null) {
    const message = `lay_night is blank, so the nest is taken as laid on the night of ${latest}. Fill in lay_night, the first night it may have been laid.`;
    return [{ severity: 'warning', column, message }];
  }
  const nights = (parseNight(latest) ?? 0) - (parseNight(first) ?? 0);
  if (nights < 0) {
    const message = `found ${latest}, which is before lay_night ${first}; expected the last night it may have been laid. Swap the two, or leave this one blank.`;
    return [{ severity: 'error', column, message }];
  }
  if (nights <= WIDEST_RANGE_NIGHTS) return [];
  const message = `found ${latest}, which is ${nights} nights after lay_night ${first}; expected at most ${WIDEST_RANGE_NIGHTS}. It is taken; check the month, or leave both blank when the lay night is not known.`;
  return [{ severity: 'warning', column, message }];
}

/** No sea turtle nests this far from the equator (common practice, no source). */
const FARTHEST_NEST_DEG = 50;

function position(values: RowValues): Finding[] {
  const [latitude, longitude] = [number(values, 'latitude'), number(values, 'longitude')];
  if (latitude === null && longitude === null) return [];
  if (latitude === null || longitude === null) {
    const column = latitude === null ? 'latitude' : 'longitude';
    const message = 'it is blank while its partner is given; a position needs both.';
    return [{ severity: 'warning', column, message }];
  }
  if (Math.abs(latitude) <= FARTHEST_NEST_DEG || Math.abs(longitude) > FARTHEST_NEST_DEG) return [];
  const message = `found latitude ${latitude} and longitude ${longitude}, which look swapped: no sea turtle nests at that latitude. They are taken as they are; swap them if so.`;
  return [{ severity: 'warning', column: 'latitude', message }];
}
