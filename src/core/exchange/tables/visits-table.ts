import { parseInstant } from '../../domain/instant.ts';
import {
  Counting,
  Emergence,
  Experience,
  Instrument,
  Mishap,
  Rain,
  Sound,
  Surface,
  WayStep,
  Wind,
} from '../../domain/visit.ts';
import { timeCell } from '../cells/date-cells.ts';
import { countCell, numberCell } from '../cells/number-cell.ts';
import { freeText, nameText } from '../cells/text-cell.ts';
import { oneOf, someOf } from '../cells/word-cells.ts';
import { type Finding, type RowValues, type TableSpec, number, text } from './table-spec.ts';

const likelihoodCell = numberCell('a likelihood', { min: 0, max: 1 });

export const visitsTable: TableSpec = {
  table: 'visits',
  columns: [
    { name: 'nest', cell: { ...nameText, expected: 'the name of a nest' }, required: true },
    { name: 'time', cell: timeCell, required: true },
    { name: 'kind', cell: oneOf(['evening', 'morning']) },
    { name: 'observer', cell: nameText },
    { name: 'experience', cell: oneOf(Experience.options) },
    { name: 'surface', cell: oneOf(Surface.options) },
    { name: 'sound', cell: oneOf(Sound.options) },
    { name: 'wind', cell: oneOf(Wind.options) },
    { name: 'rain', cell: oneOf(Rain.options) },
    { name: 'tracks', cell: countCell('hatchling tracks') },
    { name: 'event', cell: oneOf(Mishap.options) },
    { name: 'watched_from', cell: timeCell },
    { name: 'watched_to', cell: timeCell },
    { name: 'emerged', cell: countCell('hatchlings') },
    { name: 'note', cell: freeText },
    { name: 'instrument', cell: oneOf(Instrument.options), optional: true },
    { name: 'scratch_per_min', cell: numberCell('events a minute', { min: 0 }), optional: true },
    { name: 'active_share', cell: numberCell('a share', { min: 0, max: 1 }), optional: true },
    { name: 'level_db', cell: numberCell('decibels over the noise floor'), optional: true },
    { name: 'meter_quiet', cell: likelihoodCell, optional: true },
    { name: 'meter_occasional', cell: likelihoodCell, optional: true },
    { name: 'meter_steady', cell: likelihoodCell, optional: true },
    { name: 'meter_waterfall', cell: likelihoodCell, optional: true },
    { name: 'emergence', cell: oneOf(Emergence.options), optional: true, later: true },
    { name: 'counting', cell: oneOf(Counting.options), optional: true, later: true },
    { name: 'first_out', cell: timeCell, optional: true, later: true },
    { name: 'last_out', cell: timeCell, optional: true, later: true },
    { name: 'reached_water', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'astray', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'taken', cell: countCell('hatchlings'), optional: true, later: true },
    { name: 'way', cell: someOf(WayStep.options), optional: true, later: true },
  ],
  uniqueBy: null,
  knownBy: ['nest', 'time', 'observer', 'kind'],
  check: (values) => [...watch(values), ...tracks(values), ...fates(values)],
};

/** A sit longer than this is more likely a wrong date (G). */
const LONGEST_SIT_MS = 18 * 3_600_000;

function watch(values: RowValues): Finding[] {
  const [from, to] = [text(values, 'watched_from'), text(values, 'watched_to')];
  if (from === null || to === null) return halfWatch(values, from, to);
  const length_ms = (parseInstant(to) ?? 0) - (parseInstant(from) ?? 0);
  if (length_ms < 0) {
    const message = `found ${to}, which is before watched_from ${from}; expected the end of the sit. After midnight the date is the next one.`;
    return [{ severity: 'error', column: 'watched_to', message }];
  }
  if (length_ms <= LONGEST_SIT_MS) return [];
  const hours = Math.round(length_ms / 3_600_000);
  const message = `found ${to}, ${hours} hours after watched_from ${from}; expected a sit within one night. It is taken; check the date.`;
  return [{ severity: 'warning', column: 'watched_to', message }];
}

function halfWatch(values: RowValues, from: string | null, to: string | null): Finding[] {
  if (from !== null || to !== null) {
    const column = from === null ? 'watched_from' : 'watched_to';
    const message =
      'it is blank while the other end of the sit is given; the sit counts only with both.';
    return [{ severity: 'warning', column, message }];
  }
  if (number(values, 'emerged') === null) return [];
  const message = `found ${number(values, 'emerged')} with no watched_from and watched_to; expected hatchlings seen in a sit. It is taken; fill in the sit, or use tracks for a count at dawn.`;
  return [{ severity: 'warning', column: 'emerged', message }];
}

function tracks(values: RowValues): Finding[] {
  if (number(values, 'tracks') === null || text(values, 'kind') !== 'evening') return [];
  const message = `found ${number(values, 'tracks')} on an evening visit; expected tracks on morning visits. It is taken; check the kind.`;
  return [{ severity: 'warning', column: 'tracks', message }];
}

/** More hatchlings at the water, astray or taken than came up is a slip, or two counters on one line. */
function fates(values: RowValues): Finding[] {
  const emerged = number(values, 'emerged');
  const [reached, astray, taken] = ['reached_water', 'astray', 'taken'].map(
    (name) => number(values, name) ?? 0,
  ) as [number, number, number];
  if (emerged === null || reached + astray + taken <= emerged) return [];
  const message = `found ${reached} at the water, ${astray} astray and ${taken} taken, together more than the ${emerged} that emerged; expected at most that. It is taken; check the four.`;
  return [{ severity: 'warning', column: 'emerged', message }];
}
