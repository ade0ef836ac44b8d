import type { EventOf } from '../../domain/event.ts';
import { meaning, readCell, valueText } from '../cells/cell.ts';
import { ownText } from '../cells/own-text.ts';
import { guarded, guardedRaw, unguarded } from '../csv/guard.ts';
import { writeCsv } from '../csv/write-csv.ts';
import { type HeaderColumn, readHeader } from '../tables/header.ts';
import type { Column, TableSpec } from '../tables/table-spec.ts';
import type { StandingRow } from './standing-row.ts';

export interface WriteOptions {
  /** Whether to put an apostrophe before text that a spreadsheet would run as a formula. */
  readonly guard: boolean;
}

/**
 * One table as CSV text. Columns stand as the table was laid out (else in the order everyone
 * expects); columns that have values but no place yet come after. A cell keeps the text it was
 * read from as long as that still means the same.
 */
export function writeTable(
  spec: TableSpec,
  rows: readonly StandingRow[],
  layout: EventOf<'table-laid-out'> | undefined,
  zone: string,
  { guard }: WriteOptions,
): string {
  const headings = headingsOf(spec, rows, layout);
  const columns = readHeader(headings, spec);
  const header = guard ? headings.map(guardedRaw) : headings;
  const written = rows.map((row) => columns.map((column) => cellText(column, row, zone, guard)));
  return writeCsv([header, ...written], layout?.newline ?? '\n');
}

function headingsOf(
  spec: TableSpec,
  rows: readonly StandingRow[],
  layout: EventOf<'table-laid-out'> | undefined,
): readonly string[] {
  const plain = spec.columns.filter((column) => column.optional !== true).map(({ name }) => name);
  const laidOut = layout?.columns ?? plain;
  const known = new Set<string>();
  const extra = new Set<string>();
  for (const entry of readHeader(laidOut, spec)) {
    if (entry.kind === 'known') known.add(entry.column.name);
    else extra.add(entry.key);
  }
  const added = spec.columns
    .map(({ name }) => name)
    .filter((name) => !known.has(name) && rows.some(({ values }) => hasValue(values[name])));
  const carried = new Set<string>();
  for (const { source } of rows) {
    for (const key of Object.keys(source.extra ?? {})) if (!extra.has(key)) carried.add(key);
  }
  return [...laidOut, ...added, ...carried];
}

const hasValue = (value: unknown): boolean => value !== null && value !== undefined;

function cellText(column: HeaderColumn, row: StandingRow, zone: string, guard: boolean): string {
  const raw = column.kind === 'known' ? keptText(column.column, row, zone) : keptExtra(column, row);
  if (raw !== null) return guard ? guardedRaw(raw) : raw;
  const value =
    column.kind === 'known'
      ? row.values[column.column.name]
      : ownText(row.source.extra, column.key);
  return guarded(valueText(value), guard);
}

/** The text that a cell was read from, if it still means what the cell holds. */
function keptText({ name, cell }: Column, row: StandingRow, zone: string): string | null {
  const raw = ownText(row.source.text, name);
  if (raw === undefined) return null;
  const reading = readCell(cell, raw, { zone, decimalComma: false });
  const isTime = cell.isTime === true;
  const same = reading.ok && meaning(reading.value, isTime) === meaning(row.values[name], isTime);
  return same ? raw : null;
}

function keptExtra({ key }: { readonly key: string }, { source }: StandingRow): string | null {
  const raw = ownText(source.text, key);
  return raw !== undefined && unguarded(raw) === (ownText(source.extra, key) ?? '') ? raw : null;
}
