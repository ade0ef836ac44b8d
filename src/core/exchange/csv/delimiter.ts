import { eachCsvRow } from './read-csv.ts';

export type Delimiter = ',' | ';' | '\t';
export const delimiters: readonly Delimiter[] = [',', ';', '\t'];

/**
 * What parts the cells of a file: of comma, semicolon and tab the one by which the header holds
 * the most names that `isKnown` knows, then the most cells; the comma when nothing decides.
 */
export function sniffDelimiter(text: string, isKnown: (name: string) => boolean): Delimiter {
  let best: { delimiter: Delimiter; known: number; cells: number } | null = null;
  const header = firstLines(text);
  for (const delimiter of delimiters) {
    const cells = firstRow(header, delimiter);
    const known = cells.filter(isKnown).length;
    const better =
      best === null || known > best.known || (known === best.known && cells.length > best.cells);
    if (better) best = { delimiter, known, cells: cells.length };
  }
  return best?.delimiter ?? ',';
}

/** Enough of the text to hold the header, however long the file is. */
function firstLines(text: string): string {
  return text.slice(0, 20_000);
}

function firstRow(text: string, delimiter: Delimiter): readonly string[] {
  const rows: (readonly string[])[] = [];
  const end = /[\r\n]/.exec(text.trimStart());
  const line = end === null ? text : text.trimStart().slice(0, end.index);
  eachCsvRow(
    line,
    delimiter,
    ({ cells }) => void rows.push(cells),
    () => undefined,
  );
  return rows[0] ?? [];
}
