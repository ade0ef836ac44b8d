import type { TableName } from '../../domain/event.ts';
import { readCell } from '../cells/cell.ts';
import { specOf, tablesInOrder } from '../tables/all-tables.ts';
import { plainHeading } from '../tables/header.ts';
import { fileOf } from '../tables/table-spec.ts';
import { type Guess, guessMapping, valuesOf } from './guess-mapping.ts';
import { type Sheet, readSheet } from './sheet.ts';

/** A sheet whose columns have to be matched, and what it seems to be. */
export interface FoundSheet {
  readonly sheet: Sheet;
  readonly guess: Guess;
}

/** Files of which some are tables in other words than ours. */
export interface FoundSheets {
  readonly sheets: readonly FoundSheet[];
  /** All others: the tables of a season, and what is none. */
  readonly rest: ReadonlyMap<string, Uint8Array>;
}

const TEXT = /\.(csv|tsv|txt)$/i;
const LITTER = /(^|[/\\])(__MACOSX[/\\].*|\.[^/\\]*)$/i;
const IN_WORKBOOK = /\.xls[xm]?\/[^/]*\.csv$/i;

/**
 * The files that have to be matched before they can be read. Beside tables of ours a file counts only
 * when it surely is another table; what lies in a season folder besides is not asked about.
 */
export function findSheets(files: ReadonlyMap<string, Uint8Array>): FoundSheets {
  const rest = new Map(files);
  const ours = new Set<TableName>();
  const possible: { path: string; found: FoundSheet }[] = [];
  for (const [path, bytes] of files) {
    if (!TEXT.test(path) || LITTER.test(path) || bytes.length === 0) continue;
    const sheet = readSheet(IN_WORKBOOK.test(path) ? path.replace(/\.csv$/i, '') : path, bytes);
    const table = tableNamed(path);
    if (table !== null && (sheet === null || canBeRead(sheet, table))) ours.add(table);
    else if (sheet !== null) possible.push({ path, found: { sheet, guess: guessMapping(sheet) } });
  }
  const sheets = possible.filter(({ found: { guess } }) => {
    if (ours.size === 0) return true;
    const { table } = guess.mapping;
    return table !== null && guess.table !== 'unsure' && !ours.has(table);
  });
  for (const { path } of sheets) rest.delete(path);
  return { sheets: sheets.map(({ found }) => found), rest };
}

/** The table a file is by its name alone; null when it is none of ours. */
export function tableNamed(path: string): TableName | null {
  const name = path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);
  return tablesInOrder.find(({ table }) => fileOf(table) === name.toLowerCase())?.table ?? null;
}

/** How many of the values of a column are tried. */
const TRIED = 200;

/**
 * Whether a table under one of our names can be read as it stands: the columns it must have are
 * there, and of none most values are written in another way.
 */
function canBeRead(sheet: Sheet, table: TableName): boolean {
  const { columns } = specOf(table);
  const said = sheet.header.map(plainHeading);
  if (sheet.above.length > 0) return false;
  return columns.every(({ name, required, cell }) => {
    const index = said.indexOf(name);
    if (index < 0) return required !== true;
    const values = valuesOf(sheet, index).slice(0, TRIED);
    const context = { zone: 'UTC', decimalComma: true };
    const good = values.filter((text) => readCell(cell, text, context).ok).length;
    return good * 2 >= values.length;
  });
}

/** A pasted text as the one file that was given. */
export function pastedFile(bytes: Uint8Array): ReadonlyMap<string, Uint8Array> {
  return new Map([['pasted table.csv', bytes]]);
}
