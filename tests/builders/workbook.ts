import { strToU8, zipSync } from 'fflate';

/** A cell of a workbook: text, a number, yes or no, or a number shown as a date or a time. */
export type WorkbookCell =
  | string
  | number
  | boolean
  | null
  | { readonly serial: number; readonly shown: 'date' | 'date and time' | 'time' };

/** Which of the cell formats of `styles.xml` below shows a number so (ECMA-376-1, 18.8.10). */
const STYLE = { date: 1, 'date and time': 2, time: 3 } as const;

/**
 * An .xlsx written part by part after ECMA-376-1 (5th edition): packaging by clauses 11 and 12 and
 * part 2, sheets by clause 18. Rows that are empty are left out, as spreadsheets do.
 */
export function workbook(
  sheets: Readonly<Record<string, readonly (readonly WorkbookCell[])[]>>,
): Uint8Array {
  const names = Object.keys(sheets);
  const main = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
  const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
  const packaged = 'http://schemas.openxmlformats.org/package/2006';
  const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
  const shared: string[] = [];
  const parts: Record<string, string> = {};
  names.forEach((name, at) => {
    const rows = (sheets[name] ?? []).map((cells, row) => rowXml(cells, row + 1, shared)).join('');
    parts[`xl/worksheets/sheet${at + 1}.xml`] =
      `${head}<worksheet xmlns="${main}"><sheetData>${rows}</sheetData></worksheet>`;
  });
  const types = [
    ['/xl/workbook.xml', 'sheet.main'],
    ['/xl/styles.xml', 'styles'],
    ['/xl/sharedStrings.xml', 'sharedStrings'],
    ...names.map((_, at) => [`/xl/worksheets/sheet${at + 1}.xml`, 'worksheet']),
  ].map(
    ([part, type]) =>
      `<Override PartName="${part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${type}+xml"/>`,
  );
  parts['[Content_Types].xml'] =
    `${head}<Types xmlns="${packaged}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${types.join('')}</Types>`;
  parts['_rels/.rels'] =
    `${head}<Relationships xmlns="${packaged}/relationships"><Relationship Id="rId1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`;
  const relations = [
    ...names.map((_, at) => ['worksheet', `worksheets/sheet${at + 1}.xml`]),
    ['styles', 'styles.xml'],
    ['sharedStrings', 'sharedStrings.xml'],
  ].map(
    ([type, target], at) =>
      `<Relationship Id="rId${at + 1}" Type="${office}/${type}" Target="${target}"/>`,
  );
  parts['xl/_rels/workbook.xml.rels'] =
    `${head}<Relationships xmlns="${packaged}/relationships">${relations.join('')}</Relationships>`;
  const listed = names.map(
    (name, at) => `<sheet name="${escaped(name)}" sheetId="${at + 1}" r:id="rId${at + 1}"/>`,
  );
  parts['xl/workbook.xml'] =
    `${head}<workbook xmlns="${main}" xmlns:r="${office}"><sheets>${listed.join('')}</sheets></workbook>`;
  // numFmtId 14 and 20 are the built-in date and time (18.8.30); 164 is the first of one's own.
  parts['xl/styles.xml'] =
    `${head}<styleSheet xmlns="${main}"><numFmts count="1"><numFmt numFmtId="164" formatCode="dd/mm/yyyy\\ hh:mm"/></numFmts><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="20" applyNumberFormat="1"/></cellXfs></styleSheet>`;
  const strings = shared.map((text) => `<si><t xml:space="preserve">${escaped(text)}</t></si>`);
  parts['xl/sharedStrings.xml'] = `${head}<sst xmlns="${main}">${strings.join('')}</sst>`;
  return zipSync(
    Object.fromEntries(Object.entries(parts).map(([path, xml]) => [path, strToU8(xml)])),
  );
}

function rowXml(cells: readonly WorkbookCell[], row: number, shared: string[]): string {
  if (cells.length === 0) return '';
  const written = cells.map((cell, index) => {
    const at = `${String.fromCharCode(65 + index)}${row}`;
    if (cell === null) return '';
    if (typeof cell === 'string') {
      return `<c r="${at}" t="s"><v>${shared.push(cell) - 1}</v></c>`;
    }
    if (typeof cell === 'boolean') return `<c r="${at}" t="b"><v>${cell ? 1 : 0}</v></c>`;
    if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
    return `<c r="${at}" s="${STYLE[cell.shown]}"><v>${cell.serial}</v></c>`;
  });
  return `<row r="${row}">${written.join('')}</row>`;
}

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
