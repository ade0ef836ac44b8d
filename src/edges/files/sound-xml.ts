/**
 * A cell holds 32,767 characters at most (Excel's limit), each of which six bytes may stand for
 * (`&quot;`). A tag with its attributes is shorter.
 */
const LONGEST = { text_bytes: 200_000, tag_bytes: 32_768 } as const;
/** The last row and column that a spreadsheet has. */
const LAST = { row: 1_048_576, column: 16_384 } as const;
/** More rows than this are read a season at a time (G). */
const MOST_ROWS = 200_000;
/** Rows times columns; all of them lie in memory at once (G). */
const MOST_CELLS = 20e6;
/** A spreadsheet that lays out a whole column writes an empty row far below, and then ends. */
const AFTER_LAST_ROW_BYTES = 65_536;

const [LESS, MORE, QUESTION, EXCLAMATION, DOUBLE, SINGLE, COLON] = [60, 62, 63, 33, 34, 39, 58];
const ROW = /^<(?:\w+:)?row(?=[\s/>])(?:[^>]*?\sr="(\d+)")?/;
const CELL = /^<(?:\w+:)?c(?=[\s/>])(?:[^>]*?\sr="([A-Z]*)(\d*)")?/i;

/**
 * What in a text of XML the reader of workbooks would not come to an end with, null when nothing: it
 * takes a text piece by piece, smaller ones the longer each takes, and so it hangs where a tag or a
 * text is not closed, or where there are very many rows; and it fills every gap between two cells.
 */
export function faultOfXml(xml: Uint8Array): 'no XML' | 'too many cells' | null {
  let [rows, lastRow, cellsInRow, lastColumn] = [0, 0, 0, 0];
  for (let at = 0; at < xml.length;) {
    const isTag = xml[at] === LESS;
    const end = isTag ? endOfTag(xml, at) : endOfText(xml, at);
    if (end === null) return 'no XML';
    const tag = isTag && mayCount(xml, at) ? textOf(xml, at, end) : '';
    const row = tag === '' ? null : ROW.exec(tag);
    const cell = tag === '' || row !== null ? null : CELL.exec(tag);
    if (row !== null) {
      rows++;
      cellsInRow = 0;
      lastRow = Math.max(lastRow + 1, Number(row[1] ?? 0));
    }
    if (cell !== null) {
      cellsInRow++;
      lastColumn = Math.max(lastColumn, cellsInRow, columnOf(cell[1] ?? ''));
      lastRow = Math.max(lastRow, Number(cell[2] ?? 0));
    }
    if (lastRow > LAST.row || lastColumn > LAST.column) return 'no XML';
    const isFar = lastRow > MOST_ROWS && xml.length - at > AFTER_LAST_ROW_BYTES;
    if (rows > MOST_ROWS || isFar || lastRow * lastColumn > MOST_CELLS) return 'too many cells';
    at = end;
  }
  return null;
}

/** A = 1, Z = 26, AA = 27. */
const columnOf = (letters: string): number =>
  Array.from(letters.toUpperCase()).reduce(
    (sum, letter) => sum * 26 + letter.charCodeAt(0) - 64,
    0,
  );

/** Where the next tag begins, or the whole ends. */
function endOfText(xml: Uint8Array, from: number): number | null {
  const next = xml.indexOf(LESS, from);
  const end = next === -1 ? xml.length : next;
  return end - from > LONGEST.text_bytes ? null : end;
}

/** The place after a tag, a comment, or whatever else begins with `<`. */
function endOfTag(xml: Uint8Array, from: number): number | null {
  const [second, third] = [xml[from + 1], xml[from + 2]];
  if (second === QUESTION) return after(xml, '?>', from + 2);
  if (second === EXCLAMATION && third === 45) return after(xml, '-->', from + 4);
  if (second === EXCLAMATION && third === 91) return after(xml, ']]>', from + 3);
  const most = Math.min(xml.length, from + LONGEST.tag_bytes);
  let quote = 0;
  for (let at = from + 1; at < most; at++) {
    const byte = xml[at];
    if (quote !== 0) quote = byte === quote ? 0 : quote;
    else if (byte === DOUBLE || byte === SINGLE) quote = byte;
    else if (byte === MORE) return at + 1;
  }
  return null;
}

function after(xml: Uint8Array, mark: string, from: number): number | null {
  const codes = Array.from(mark, (letter) => letter.charCodeAt(0));
  const most = Math.min(xml.length, from + LONGEST.text_bytes);
  for (let at = from; at + codes.length <= most; at++) {
    if (codes.every((code, index) => xml[at + index] === code)) return at + codes.length;
  }
  return null;
}

/** Whether a tag may be a row or a cell: `<row`, `<c`, or one with a prefix. */
function mayCount(xml: Uint8Array, at: number): boolean {
  const first = xml[at + 1];
  if (first === 114 || first === 99) return true;
  for (let next = at + 2; next < at + 10; next++) if (xml[next] === COLON) return true;
  return false;
}

const textOf = (xml: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...xml.subarray(from, Math.min(to, from + 200)));
