import type { Source, TableName } from '../../domain/event.ts';
import { type CellContext, type CellValue, readCell, valueText } from '../cells/cell.ts';
import { guarded, unguarded } from '../csv/guard.ts';
import type { HeaderColumn } from '../tables/header.ts';
import type { Column, RowValues } from '../tables/table-spec.ts';

/** A row that was read: its values, and what is needed to write it again just as it was. */
export interface Row {
  readonly table: TableName;
  readonly values: RowValues;
  readonly source: Source;
}

export type CellFault = (
  severity: 'error' | 'warning',
  column: Column,
  raw: string,
  advice: string,
) => void;

/** Reads the cells of one row; null when one could not be read (each such cell is told to `fault`). */
export function readRow(
  table: TableName,
  row: number,
  cells: readonly string[],
  header: readonly HeaderColumn[],
  context: CellContext,
  fault: CellFault,
): Row | null {
  const values: Record<string, CellValue | null> = {};
  const text: Record<string, string> = {};
  const extra: Record<string, string> = {};
  let good = true;
  for (const [index, entry] of header.entries()) {
    const raw = cells[index] ?? '';
    if (raw === '' && !(entry.kind === 'known' && entry.column.required === true)) continue;
    if (entry.kind === 'extra') {
      extra[entry.key] = unguarded(raw);
      if (guarded(unguarded(raw), false) !== raw) text[entry.key] = raw;
      continue;
    }
    const { column } = entry;
    const reading = readCell(column.cell, raw, context);
    if (!reading.ok) {
      fault('error', column, raw, reading.advice);
      good = false;
      continue;
    }
    if (reading.value === null && column.required === true) {
      fault('error', column, raw, 'fill it in; without it the row says nothing');
      good = false;
      continue;
    }
    if (reading.warning !== undefined) fault('warning', column, raw, reading.warning);
    if (reading.value !== null) values[column.name] = reading.value;
    if (guarded(valueText(reading.value), false) !== raw) text[column.name] = raw;
  }
  return good ? { table, values, source: sourceOf(row, text, extra) } : null;
}

function sourceOf(
  row: number,
  text: Record<string, string>,
  extra: Record<string, string>,
): Source {
  return {
    row,
    ...(isEmpty(text) ? {} : { text }),
    ...(isEmpty(extra) ? {} : { extra }),
  };
}

const isEmpty = (record: object): boolean => Object.keys(record).length === 0;
