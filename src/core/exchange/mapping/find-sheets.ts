import type { TableName } from '../../domain/event.ts';
import { tablesInOrder } from '../tables/all-tables.ts';
import { plainHeading } from '../tables/header.ts';
import { fileOf } from '../tables/table-spec.ts';
import { type Guess, guessMapping } from './guess-mapping.ts';
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

function canBeRead({ header, above }: Sheet, table: TableName): boolean {
  const said = new Set(header.map(plainHeading));
  const spec = tablesInOrder.find((candidate) => candidate.table === table);
  const required = spec?.columns.filter((column) => column.required === true) ?? [];
  return above.length === 0 && required.every(({ name }) => said.has(name));
}

/** A pasted text as the one file that was given. */
export function pastedFile(bytes: Uint8Array): ReadonlyMap<string, Uint8Array> {
  return new Map([['pasted table.csv', bytes]]);
}
