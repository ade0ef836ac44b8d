const NEEDS_QUOTES = /[",\r\n]/;

/** One RFC 4180 table: cells by comma, in quotation marks only where they must be, each line ended. */
export function writeCsv(rows: Iterable<readonly string[]>, newline: '\n' | '\r\n'): string {
  const lines: string[] = [];
  for (const cells of rows) {
    // A row of one empty cell would read as no row at all.
    const line = cells.length === 1 && cells[0] === '' ? '""' : cells.map(writeCell).join(',');
    lines.push(line + newline);
  }
  return lines.join('');
}

function writeCell(text: string): string {
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
