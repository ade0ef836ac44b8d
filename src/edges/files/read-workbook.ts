import { strToU8, zipSync } from 'fflate';
import readSheets from 'read-excel-file/universal';
import { guarded } from '../../core/exchange/csv/guard.ts';
import { writeCsv } from '../../core/exchange/csv/write-csv.ts';
import { LIMITS, megabytes } from './size-limits.ts';
import { faultOfXml } from './sound-xml.ts';
import type { Unpacked } from './unpack-zip.ts';
import { unzipWanted, zipEntries } from './zip-entries.ts';

/** How a file begins that holds streams: workbooks of before 2007, and locked ones of today. */
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0];
/** The name of the stream that holds a locked workbook, as it is written: UTF-16, little end first. */
const LOCKED = 'EncryptedPackage';

/**
 * The sheets of an Excel workbook (.xlsx), each as CSV under `workbook.xlsx/sheet.csv`, empty ones
 * left out: rows keep their numbers, dates and times are ISO text as the sheet shows them, formulas
 * are the values they had when it was saved. Says in words why when it cannot be read.
 */
export async function readWorkbook(name: string, bytes: Uint8Array): Promise<Unpacked> {
  const refused = (message: string): Unpacked => ({ ok: false, message });
  if (COMPOUND_FILE.every((byte, index) => bytes[index] === byte)) {
    return refused(
      holds(bytes, LOCKED)
        ? `${name} is locked with a password. Open it in your spreadsheet program, save a copy without one, and give that.`
        : `${name} is a workbook of the old kind (.xls). Save it as .xlsx or as CSV, and give that.`,
    );
  }
  try {
    const parts = unpackParts(name, bytes);
    if (typeof parts === 'string') return refused(parts);
    // Stored, not packed: the reader would unpack in a worker that the security policy forbids.
    const plain = new Uint8Array(zipSync(parts, { level: 0 }));
    const sheets = await readSheets<string>(plain.buffer, { trim: false, parseNumber });
    const files = new Map<string, Uint8Array>();
    for (const { sheet, data } of sheets) {
      const rows = data.map((row) => row.map((cell) => guarded(cellText(cell), false)));
      if (rows.length > 0) files.set(`${name}/${sheet}.csv`, strToU8(writeCsv(rows, '\n')));
    }
    return files.size === 0
      ? refused(`${name} has nothing in any of its sheets.`)
      : { ok: true, files };
  } catch {
    return refused(
      `${name} could not be read; it may be damaged, or no workbook at all. Open it in your spreadsheet program, save it anew as .xlsx or as CSV, and give that.`,
    );
  }
}

/** The parts of the workbook that hold text; a message when they would be too large. */
function unpackParts(
  name: string,
  bytes: Uint8Array,
): Readonly<Record<string, Uint8Array>> | string {
  const isText = (path: string): boolean => /\.(xml|rels)$/i.test(path);
  const all_bytes = zipEntries(bytes)
    .filter((entry) => isText(entry.name))
    .reduce((sum, { size }) => sum + size, 0);
  if (all_bytes > LIMITS.workbook_bytes) {
    return `${name} would unpack to ${megabytes(all_bytes)}; at most ${megabytes(LIMITS.workbook_bytes)} are read. Split it, or save each sheet as CSV.`;
  }
  const parts = unzipWanted(bytes, isText);
  for (const [path, xml] of Object.entries(parts)) {
    const fault = faultOfXml(xml);
    if (fault === 'no XML') throw new Error(`${path} is no XML of a workbook.`);
    if (fault === 'too many cells') {
      return `${name} has a sheet with more rows and columns than can be read. Split it, or save each sheet as CSV.`;
    }
  }
  return parts;
}

/** A file may keep 27.4 as 27.399999999999999; the shortest way of writing the same number is meant. */
const parseNumber = (text: string): string => String(Number(text));

/** Days before this one stand for a time of day alone. */
const TIME_ONLY_UNTIL_MS = Date.UTC(1900, 0, 1);

function cellText(cell: unknown): string {
  if (cell === null || cell === undefined) return '';
  if (cell instanceof Date) return dateText(cell);
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  return typeof cell === 'string' ? cell : String(Number(cell));
}

/** The reader gives the clocks of the sheet as if they were those of UTC. */
function dateText(date: Date): string {
  const second_ms = Math.round(date.getTime() / 1000) * 1000;
  if (Number.isNaN(second_ms)) return '';
  const text = new Date(second_ms).toISOString();
  const clock = text.slice(11, 19).replace(/:00$/, '');
  if (second_ms < TIME_ONLY_UNTIL_MS) return clock;
  return clock === '00:00' ? text.slice(0, 10) : `${text.slice(0, 10)}T${clock}`;
}

function holds(bytes: Uint8Array, word: string): boolean {
  const sought = Array.from(word, (letter) => [letter.charCodeAt(0), 0]).flat();
  for (
    let at = bytes.indexOf(sought[0] ?? 0);
    at >= 0;
    at = bytes.indexOf(sought[0] ?? 0, at + 1)
  ) {
    if (sought.every((byte, index) => bytes[at + index] === byte)) return true;
  }
  return false;
}
