/** A row of cells, with its number as a spreadsheet shows it. */
export interface CsvRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/** A place where quotation marks do not pair. */
export interface QuoteFault {
  /** The row in which the mark was opened. */
  readonly row: number;
  /** Index of the cell in that row. */
  readonly cell: number;
  /** `row`: this row alone could not be read. `rest`: nor anything after it. */
  readonly loses: 'row' | 'rest';
}

const QUOTE = 34;
const LF = 10;
const CR = 13;

/**
 * Goes through RFC 4180 text row by row: cells in quotation marks may hold the delimiter, line
 * breaks and doubled marks; lines end in LF, CRLF or CR. A mark inside a bare cell stands for
 * itself. Empty lines are counted but not given.
 *
 * Where text follows a closing mark the row is passed over, if the mark was opened on the same
 * line; otherwise nobody can tell which rows belong together, and reading ends there.
 */
export function eachCsvRow(
  text: string,
  delimiter: string,
  take: (row: CsvRow) => void,
  fault: (fault: QuoteFault) => void,
): void {
  const separator = delimiter.charCodeAt(0);
  const { length } = text;
  let at = 0;
  let row = 0;
  while (at < length) {
    row++;
    const cells: string[] = [];
    let ended = false;
    while (!ended) {
      if (text.charCodeAt(at) === QUOTE) {
        const cell = readQuoted(text, at);
        if (cell === null) {
          fault({ row, cell: cells.length, loses: 'rest' });
          return;
        }
        const next = cell.end < length ? text.charCodeAt(cell.end) : LF;
        if (next !== separator && next !== LF && next !== CR) {
          const loses = lineEnd(text, at) >= cell.end ? 'row' : 'rest';
          fault({ row, cell: cells.length, loses });
          if (loses === 'rest') return;
          at = afterLine(text, lineEnd(text, cell.end));
          cells.length = 0;
          break;
        }
        cells.push(cell.text);
        at = cell.end;
      } else {
        const from = at;
        for (; at < length; at++) {
          const code = text.charCodeAt(at);
          if (code === separator || code === LF || code === CR) break;
        }
        cells.push(text.slice(from, at));
      }
      if (at < length && text.charCodeAt(at) === separator) at++;
      else {
        ended = true;
        at = afterLine(text, at);
      }
    }
    if (ended && !(cells.length === 1 && cells[0] === '')) take({ row, cells });
  }
}

/** The cell that opens at `from`, and the place after its closing mark; null when none closes it. */
function readQuoted(text: string, from: number): { text: string; end: number } | null {
  let at = from + 1;
  let doubled = false;
  for (;;) {
    const mark = text.indexOf('"', at);
    if (mark < 0) return null;
    if (text.charCodeAt(mark + 1) !== QUOTE) {
      const inner = text.slice(from + 1, mark);
      return { text: doubled ? inner.replaceAll('""', '"') : inner, end: mark + 1 };
    }
    doubled = true;
    at = mark + 2;
  }
}

function lineEnd(text: string, from: number): number {
  let at = from;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === LF || code === CR) break;
  }
  return at;
}

/** The start of the next line, given the place of a line break (or the end of the text). */
function afterLine(text: string, at: number): number {
  return text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF ? at + 2 : at + 1;
}
