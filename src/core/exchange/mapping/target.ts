import type { TableName } from '../../domain/event.ts';
import { calendarDateCell, clockCell, nightCell } from '../cells/date-cells.ts';
import { lampList } from '../cells/lamp-list.ts';
import { freeText, nameList, nameText } from '../cells/text-cell.ts';
import { specOf } from '../tables/all-tables.ts';
import type { Column } from '../tables/table-spec.ts';
import { type WordList, wordsOf } from './words.ts';

/** A column of ours, by what has to be known to fill it from a cell in anybody's words. */
export type Target = { readonly column: Column } & (
  | { readonly kind: 'date' | 'time' | 'clock' | 'number' | 'position' | 'name' | 'as it is' }
  | { readonly kind: 'word'; readonly list: WordList }
);

/** Columns that hold lists in a form of their own: they are taken as they are. */
const own = new Set(['track_bearings', 'way', 'zones']);

function targetOf(column: Column): Target {
  const { cell, name } = column;
  const list = wordsOf(column);
  if (list !== null) return { column, kind: 'word', list };
  if (cell.isTime === true) return { column, kind: 'time' };
  if (cell === nightCell || cell === calendarDateCell) return { column, kind: 'date' };
  if (cell === clockCell) return { column, kind: 'clock' };
  if (cell.read === nameText.read) return { column, kind: 'name' };
  if (name === 'latitude' || name === 'longitude') return { column, kind: 'position' };
  const asItIs = cell === freeText || cell === nameList || cell === lampList || own.has(name);
  return { column, kind: asItIs ? 'as it is' : 'number' };
}

/** The columns of one of our tables, in their order. */
export function targetsOf(table: TableName): readonly Target[] {
  return specOf(table).columns.map(targetOf);
}
