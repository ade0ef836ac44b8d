import type { SeasonEvent } from '../../domain/event.ts';
import type { CellContext } from '../cells/cell.ts';
import { delimiters, sniffDelimiter } from '../csv/delimiter.ts';
import { type QuoteFault, eachCsvRow } from '../csv/read-csv.ts';
import { decode } from '../decode.ts';
import { type ProblemsOfFile, quoted } from '../problem.ts';
import { type HeaderColumn, plainHeading, readHeader } from '../tables/header.ts';
import type { TableSpec } from '../tables/table-spec.ts';
import { reportHeader } from './report-header.ts';
import { type CellFault, type Row, readRow } from './row.ts';

/** A table as it lies in a file: how it is laid out, and how many of its rows are good. */
export interface TableOutline {
  readonly columns: readonly string[];
  readonly newline: Extract<SeasonEvent, { kind: 'table-laid-out' }>['newline'];
  /** Rows that hold something, good or not; the header is not one. */
  readonly rows: number;
  /** Whether it has the columns without which no row says anything. */
  readonly readable: boolean;
}

/** `sep=;` on the first line: some spreadsheets say so how cells are parted. */
const SEP_LINE = /^sep=(,|;|\t)(\r\n|\n|\r)/i;

/**
 * Reads one table from the bytes of its file and hands its good rows to `take`, and to `leaveOut`
 * the cells of those that are not. Null when not even a header could be read.
 */
export function readTable(
  bytes: Uint8Array,
  spec: TableSpec,
  zone: string,
  problems: ProblemsOfFile,
  take: (row: Row) => void,
  leaveOut: (row: number, cells: readonly string[], header: readonly HeaderColumn[]) => void,
): TableOutline | null {
  const { text: whole, encoding } = decode(bytes);
  if (encoding === 'Windows-1252') {
    const message =
      'the file is not valid UTF-8, so it was read as Windows-1252 (Latin-1). Check names with accents; save it as UTF-8 to be sure.';
    problems.add('warning', 1, '', message);
  }
  const sep = SEP_LINE.exec(whole);
  const text = sep === null ? whole : whole.slice(sep[0].length);
  const isKnown = (name: string): boolean =>
    spec.columns.some((column) => column.name === plainHeading(name));
  const delimiter = delimiters.find((mark) => mark === sep?.[1]) ?? sniffDelimiter(text, isKnown);
  const shift = sep === null ? 0 : 1;
  const context: CellContext = { zone, decimalComma: delimiter !== ',' };
  const found: { head: Head | null } = { head: null };
  let rows = 0;
  const nameOf = (cell: number): string => found.head?.raw[cell] ?? '';
  eachCsvRow(
    text,
    delimiter,
    ({ row: line, cells }) => {
      const row = line + shift;
      const { head } = found;
      if (head === null) {
        const columns = readHeader(cells, spec);
        const readable = reportHeader(cells, columns, spec, row, problems);
        found.head = { raw: cells, columns, readable };
        return;
      }
      if (cells.every((cell) => cell.trim() === '')) return;
      rows++;
      if (!head.readable) return;
      const good =
        fits(cells, head.columns, row, problems) &&
        readRow(spec.table, row, cells, head.columns, context, cellFault(problems, row));
      if (good === false || good === null) leaveOut(row, cells, head.columns);
      else take(good);
    },
    (fault) => {
      rows++;
      problems.add('error', fault.row + shift, nameOf(fault.cell), quoteMessage(fault, shift));
    },
  );
  if (found.head === null) {
    problems.add('error', 1, '', `the file is empty; expected a header: ${headerText(spec)}.`);
    return null;
  }
  const { raw: columns, readable } = found.head;
  return { columns, newline: newlineOf(text), rows, readable };
}

/** How the header's line ends. */
function newlineOf(text: string): '\n' | '\r\n' {
  return /\r?\n/.exec(text)?.[0] === '\r\n' ? '\r\n' : '\n';
}

interface Head {
  readonly raw: readonly string[];
  readonly columns: readonly HeaderColumn[];
  readonly readable: boolean;
}

export function headerText(spec: TableSpec): string {
  return spec.columns
    .filter((column) => column.optional !== true)
    .map((column) => column.name)
    .join(',');
}

function fits(
  cells: readonly string[],
  columns: readonly HeaderColumn[],
  row: number,
  problems: ProblemsOfFile,
): boolean {
  const beyond = cells.slice(columns.length).find((cell) => cell.trim() !== '');
  if (beyond === undefined) return true;
  const message = `found ${cells.length} cells, among them ${quoted(beyond)}; expected ${columns.length}, as the header has. Put quotation marks around text that holds a comma.`;
  problems.add('error', row, '', message);
  return false;
}

function cellFault(problems: ProblemsOfFile, row: number): CellFault {
  return (severity, { name, cell }, raw, advice) => {
    if (severity === 'warning') {
      const message = `${advice}, and likewise in the rest of this column. Write a decimal point to be sure.`;
      problems.addOnce(`reads ${name}`, severity, row, name, message);
      return;
    }
    const found = raw.trim() === '' ? 'it is empty' : `found ${quoted(raw)}`;
    problems.add(severity, row, name, `${found}; expected ${cell.expected}. Remedy: ${advice}.`);
  };
}

function quoteMessage({ row, loses }: QuoteFault, shift: number): string {
  if (loses === 'row') {
    return 'found text after a closing quotation mark; expected a comma or the end of the line. The row is left out; double the marks that belong to the text.';
  }
  return `found a quotation mark that is opened in row ${row + shift} and not closed in its cell; expected a second one. Rows from here on could not be read, those above can be taken. Close the mark, or remove it.`;
}
