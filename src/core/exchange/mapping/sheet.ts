import { type Delimiter, delimiters } from '../csv/delimiter.ts';
import { unguarded } from '../csv/guard.ts';
import { eachCsvRow } from '../csv/read-csv.ts';
import { decode } from '../decode.ts';
import type { Problem } from '../problem.ts';
import { isHeading } from './headings.ts';

/** One row of a sheet, with its number as the person sees it. */
export interface SheetRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/** A table in anybody's words: a CSV file, a pasted table or one sheet of a workbook. */
export interface Sheet {
  readonly name: string;
  /** The row in which the headings stand; titles may stand above it. */
  readonly header_row: number;
  /** As many as the widest row has cells; a column without a heading is named by its letter. */
  readonly header: readonly string[];
  /** The rows below the header that hold something. */
  readonly rows: readonly SheetRow[];
  /** What stands above the header, to be told: it is not taken. */
  readonly above: readonly SheetRow[];
  readonly problems: readonly Problem[];
}

const SEP_LINE = /^sep=(,|;|\t)(\r\n|\n|\r)/i;
/** How far down the headings are looked for. */
const HEADER_WITHIN = 30;
/** More columns than this are no table of a person's; each is compared with all of ours. */
const MOST_COLUMNS = 500;
/** Enough text to tell by what the cells are parted. */
const LOOKED_AT = 20_000;

/** Reads a sheet from the bytes of a text file; null when no row has two cells, so it is no table. */
export function readSheet(name: string, bytes: Uint8Array): Sheet | null {
  const { text: whole, encoding } = decode(bytes);
  const sep = SEP_LINE.exec(whole);
  const text = sep === null ? whole : whole.slice(sep[0].length);
  const delimiter = delimiters.find((mark) => mark === sep?.[1]) ?? delimiterOf(text);
  const problems: Problem[] = [];
  const tell = (row: number, severity: Problem['severity'], message: string): void => {
    problems.push({ file: name, row, column: '', message, severity });
  };
  if (encoding === 'Windows-1252') {
    const message =
      'the file is not valid UTF-8, so it was read as Windows-1252 (Latin-1). Check names with accents.';
    tell(1, 'warning', message);
  }
  const shift = sep === null ? 0 : 1;
  const rows: SheetRow[] = [];
  eachCsvRow(
    text,
    delimiter,
    ({ row, cells }) => {
      if (cells.some((cell) => cell.trim() !== '')) rows.push({ row: row + shift, cells });
    },
    ({ row, loses }) => {
      const message =
        loses === 'row'
          ? 'found text after a closing quotation mark. The row is left out; double the marks that belong to the text.'
          : 'found a quotation mark that is not closed in its cell. Rows from here on could not be read; close the mark, or remove it.';
      tell(row + shift, 'error', message);
    },
  );
  return sheetOf(name, rows, problems);
}

function sheetOf(
  name: string,
  rows: readonly SheetRow[],
  problems: readonly Problem[],
): Sheet | null {
  if (!rows.some(({ cells }) => filled(cells) > 1)) return null;
  const at = headerIndex(rows);
  const head = rows[at];
  if (head === undefined) return null;
  const below = rows.slice(at + 1);
  const found = [head, ...below].reduce((most, { cells }) => Math.max(most, lastFilled(cells)), 0);
  const wide = Math.min(found, MOST_COLUMNS);
  const told = found > wide ? [...problems, tooWide(name, head.row, found)] : problems;
  const header = Array.from({ length: wide }, (_, index) => {
    const heading = unguarded(head.cells[index] ?? '').trim();
    return heading === '' ? `column ${letters(index)}` : heading;
  });
  return {
    name,
    header_row: head.row,
    header,
    rows: below,
    above: rows.slice(0, at),
    problems: told,
  };
}

function tooWide(file: string, row: number, found: number): Problem {
  const message = `there are ${found} columns; at most ${MOST_COLUMNS} are read, and what stands farther right is left out. Remove the columns that hold nothing of use, or give this table in parts.`;
  return { file, row, column: '', message, severity: 'error' };
}

const filled = (cells: readonly string[]): number =>
  cells.filter((cell) => cell.trim() !== '').length;
const lastFilled = (cells: readonly string[]): number =>
  cells.reduce((last, cell, index) => (cell.trim() === '' ? last : index + 1), 0);

/** The letters by which spreadsheets name a column: A, B ... Z, AA. */
function letters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : letters(Math.floor(index / 26) - 1) + last;
}

/** The row that reads most like headings: known ones count most, then text, and numbers against it. */
function headerIndex(rows: readonly SheetRow[]): number {
  let best = { at: 0, score: -Infinity };
  rows.slice(0, HEADER_WITHIN).forEach(({ cells }, at) => {
    const score = cells.reduce((sum, cell) => sum + headingScore(cell), 0);
    if (score > best.score) best = { at, score };
  });
  return best.at;
}

function headingScore(cell: string): number {
  const text = unguarded(cell).trim();
  if (text === '') return 0;
  if (isHeading(text)) return 4;
  return /^[\d.,/:+\-\s°%]+$/.test(text) || text.length > 60 ? -2 : 1;
}

/** Of comma, semicolon and tab the one that cuts the rows into alike numbers of cells, and most. */
function delimiterOf(text: string): Delimiter {
  const cut = text.slice(0, LOOKED_AT);
  const end = text.length > LOOKED_AT ? Math.max(cut.lastIndexOf('\n'), cut.lastIndexOf('\r')) : -1;
  const looked = end > 0 ? cut.slice(0, end) : cut;
  let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 };
  for (const delimiter of ['\t', ';', ','] as const) {
    const counts = new Map<number, number>();
    let rows = 0;
    let known = 0;
    eachCsvRow(
      looked,
      delimiter,
      ({ cells }) => {
        rows++;
        counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
        if (rows <= HEADER_WITHIN) known = Math.max(known, cells.filter(isHeading).length);
      },
      () => undefined,
    );
    const [cells, times] = [...counts].reduce(
      (most, entry) => (entry[1] > most[1] ? entry : most),
      [1, 0],
    );
    const score = known + (cells - 1) * (times / Math.max(1, rows));
    if (score > best.score) best = { delimiter, score };
  }
  return best.delimiter;
}
