import { meaning } from '../cells/cell.ts';
import { ownText } from '../cells/own-text.ts';
import type { CellValue } from '../cells/cell.ts';
import { type StandingRow, fieldOf, valuesOf } from '../season-folder/standing-row.ts';
import type { RowValues, TableSpec } from '../tables/table-spec.ts';

/** Which columns a file has; it says nothing of the others. */
export interface FileColumns {
  readonly known: ReadonlySet<string>;
  readonly extra: ReadonlySet<string>;
}

/** What a row of a file changes in what stands. */
export interface Changes {
  /** New values by field of the event; null = not known after all. */
  readonly fields: Readonly<Record<string, CellValue | null>>;
  readonly extra: Readonly<Record<string, string>>;
}

/**
 * What a row changes, compared three ways: with what stands now, and with what the last import
 * said. A cell that repeats the last import says nothing new, so what a person corrected since
 * stays. A blank cell takes a value away only if an import had put it there.
 */
export function changedFields(
  spec: TableSpec,
  theirs: RowValues,
  theirExtra: Readonly<Record<string, string>>,
  ours: StandingRow,
  columns: FileColumns,
): Changes {
  const last = lastImported(ours, spec);
  const fields: Record<string, CellValue | null> = {};
  for (const { name, cell } of spec.columns) {
    if (!columns.known.has(name)) continue;
    const isTime = cell.isTime === true;
    const said = meaning(theirs[name], isTime);
    if (said === meaning(ours.values[name], isTime)) continue;
    if (last === null ? said === '' : said === meaning(last[name], isTime)) continue;
    fields[fieldOf(spec.table, name)] = theirs[name] ?? null;
  }
  const extra: Record<string, string> = {};
  for (const key of columns.extra) {
    const said = ownText(theirExtra, key) ?? '';
    if (said !== (ownText(ours.source.extra, key) ?? '')) extra[key] = said;
  }
  return { fields, extra };
}

/** What imports have said of a row so far; null when it came by no import. */
function lastImported({ standing }: StandingRow, spec: TableSpec): RowValues | null {
  if (standing.original.source === undefined) return null;
  const values: Record<string, CellValue | null> = { ...valuesOf(standing.original) };
  for (const { event, holds } of standing.amendments) {
    if (!holds || event.kind !== 'corrected' || event.source === undefined) continue;
    for (const { name } of spec.columns) {
      const field = fieldOf(spec.table, name);
      if (Object.hasOwn(event.changes, field)) values[name] = cellValue(event.changes[field]);
    }
  }
  return values;
}

/** A value out of a correction as a cell could hold it. */
function cellValue(value: unknown): CellValue | null {
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') {
    return value;
  }
  return Array.isArray(value) ? value.map(String) : null;
}
