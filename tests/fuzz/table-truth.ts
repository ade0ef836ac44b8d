import type { SeasonEvent, TableName } from '../../src/core/domain/event.ts';
import { decode } from '../../src/core/exchange/decode.ts';
import type { Problem } from '../../src/core/exchange/problem.ts';
import type { ReadSeason } from '../../src/core/exchange/season-folder/read-season-folder.ts';
import { writeSeasonFolder } from '../../src/core/exchange/season-folder/write-season-folder.ts';
import { fold } from '../../src/core/log/fold.ts';
import { type Outcome, promise } from './importer.ts';

/** A table read by rules of its own, apart from the program's, so that the two can be compared. */
interface PlainTable {
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  /** Quotation marks pair, so that there is but one way to read it. */
  readonly isPlain: boolean;
}

/** RFC 4180 letter by letter; a mark inside a bare cell stands for itself. */
export function plainTable(text: string, delimiter: string): PlainTable {
  const rows: { row: number; cells: string[] }[] = [];
  let [cells, cell, row, isQuoted, wasQuoted, isPlain] = [
    [] as string[],
    '',
    1,
    false,
    false,
    true,
  ];
  const endCell = (): void => {
    cells.push(cell);
    [cell, wasQuoted] = ['', false];
  };
  const endRow = (): void => {
    endCell();
    rows.push({ row, cells });
    [cells, row] = [[], row + 1];
  };
  for (let at = 0; at < text.length; at++) {
    const letter = text[at]!;
    if (isQuoted) {
      if (letter !== '"') cell += letter;
      else if (text[at + 1] === '"') cell += text[++at]!;
      else [isQuoted, wasQuoted] = [false, true];
    } else if (letter === delimiter) endCell();
    else if (letter === '\n' || letter === '\r') {
      if (letter === '\r' && text[at + 1] === '\n') at++;
      endRow();
    } else if (letter === '"' && cell === '' && !wasQuoted) isQuoted = true;
    else if (wasQuoted) isPlain = false;
    else cell += letter;
  }
  if (isQuoted) isPlain = false;
  if (cell !== '' || cells.length > 0 || wasQuoted) endRow();
  return { rows, isPlain };
}

const isBlank = (cells: readonly string[]): boolean => cells.every((cell) => cell.trim() === '');
const listedAtMost = 1000;

/**
 * Holds what was read of one table against the table itself: every row is taken or named, what is
 * taken can be written again cell by cell, and numbers are those that stand there.
 */
export function judgeTable(bytes: Uint8Array, table: TableName, read: ReadSeason): Outcome {
  const file = `${table}.csv`;
  const problems = read.problems.filter((problem) => problem.file === file);
  const errors = problems.filter(({ severity }) => severity === 'error');
  const events = read.events.filter((event) => isOf(event, table));
  const count = read.counts[table] ?? { rows: 0, taken: 0 };
  promise(count.taken === events.length, () => `${count.taken} counted, ${events.length} taken`);
  judgeCoverage(count.rows, events, errors);
  const layout = read.events.find(
    (event) => event.kind === 'table-laid-out' && event.table === table,
  );
  if (layout?.kind !== 'table-laid-out') {
    promise(events.length === 0, () => 'rows of a table without a header were taken');
    promise(errors.length > 0, () => 'nothing was taken and no error was told');
    return 'refused';
  }
  const plain = plainAs(bytes, layout.columns);
  if (plain?.isPlain === true) judgeRows(plain, layout.columns, table, read, events, errors);
  return events.length === 0 && count.rows > 0
    ? 'refused'
    : errors.length > 0
      ? 'in part'
      : 'taken';
}

const isOf = (event: SeasonEvent, table: TableName): boolean => kinds[event.kind] === table;
const kinds: Partial<Record<SeasonEvent['kind'], TableName>> = {
  'nest-registered': 'nests',
  'visit-noted': 'visits',
  'conditions-noted': 'conditions',
  'volunteer-enrolled': 'volunteers',
  'availability-given': 'availability',
  'orientation-recorded': 'orientation',
  'inventory-recorded': 'inventory',
};

/** As many rows are taken or named as there are. */
function judgeCoverage(
  rows: number,
  events: readonly SeasonEvent[],
  errors: readonly Problem[],
): void {
  const named = new Set(errors.map(({ row }) => row));
  const both = events.filter(({ source }) => named.has(source?.row ?? -1));
  promise(both.length === 0, () => `row ${both[0]?.source?.row} is taken and refused at once`);
  const isAll = errors.some(({ message }) => message.includes('No row of this file was taken'));
  promise(
    isAll || errors.length >= listedAtMost || events.length + named.size >= rows,
    () => `${rows} rows, ${events.length} taken and ${named.size} named`,
  );
}

/** The table with the delimiter by which its header is the one that was read. */
function plainAs(bytes: Uint8Array, columns: readonly string[]): PlainTable | null {
  const { text: whole } = decode(bytes);
  const sep = /^sep=[,;\t](\r\n|\n|\r)/i.exec(whole)?.[0] ?? '';
  for (const delimiter of [',', ';', '\t']) {
    const table = plainTable(whole.slice(sep.length), delimiter);
    const shift = sep === '' ? 0 : 1;
    const rows = table.rows
      .filter(({ cells }) => cells.length > 1 || cells[0] !== '')
      .map(({ row, cells }) => ({ row: row + shift, cells }));
    if (JSON.stringify(rows[0]?.cells) === JSON.stringify(columns)) return { ...table, rows };
  }
  return null;
}

function judgeRows(
  { rows: [, ...below] }: PlainTable,
  columns: readonly string[],
  table: TableName,
  read: ReadSeason,
  events: readonly SeasonEvent[],
  errors: readonly Problem[],
): void {
  const rows = below.filter(({ cells }) => !isBlank(cells));
  const count = read.counts[table]?.rows ?? 0;
  promise(count === rows.length, () => `${rows.length} rows in the file, ${count} counted`);
  const named = new Set(errors.map(({ row }) => row));
  const takenAt = new Map(events.map((event) => [event.source?.row ?? 0, event]));
  promise(takenAt.size === events.length, () => 'one row was taken twice');
  const taken = rows.filter(({ row }) => takenAt.has(row));
  const lost = rows.find(({ row }) => !takenAt.has(row) && !named.has(row));
  promise(
    lost === undefined || errors.length >= listedAtMost,
    () => `row ${lost?.row} (${lost?.cells.join('|').slice(0, 80)}) is neither taken nor named`,
  );
  const written = writeSeasonFolder(fold(read.events, read.zone), { guard: false });
  const back = plainTable(written.get(`${table}.csv`) ?? '', ',').rows.slice(1);
  const wide = Math.max(columns.length, ...back.map(({ cells }) => cells.length));
  const asKey = (cells: readonly string[]): string =>
    JSON.stringify(Array.from({ length: wide }, (_, at) => plainNumber(cells[at] ?? '')));
  const [there, here] = [back, taken].map((list) => list.map(({ cells }) => asKey(cells)).sort());
  const at = here!.findIndex((key, index) => key !== there![index]);
  promise(
    there!.length === here!.length && at < 0,
    () =>
      `taken and written: ${there![Math.max(at, 0)]}; it stood there as: ${here![Math.max(at, 0)]}`,
  );
  for (const { row, cells } of taken) judgeNumbers(takenAt.get(row)!, columns, cells);
}

/** 27,4 in a table parted by semicolons is 27.4. */
const plainNumber = (cell: string): string => cell.replace(/^([+-]?\d+),(\d+)$/, '$1.$2');

/** Every number of an event is the number of its cell. */
function judgeNumbers(
  event: SeasonEvent,
  columns: readonly string[],
  cells: readonly string[],
): void {
  if (!('details' in event)) return;
  for (const [name, value] of Object.entries(event.details)) {
    if (typeof value !== 'number') continue;
    const at = columns.findIndex((heading) => heading.trim().toLowerCase() === name);
    if (at < 0) continue;
    const said = Number(plainNumber((cells[at] ?? '').replace(/^'+/, '').trim()));
    promise(said === value, () => `${name} was read as ${value} where "${cells[at]}" stands`);
  }
}
