import type { TableName } from '../../domain/event.ts';
import { guarded, unguarded } from '../csv/guard.ts';
import { specOf } from '../tables/all-tables.ts';
import { plainHeading } from '../tables/header.ts';
import { type Change, Changes } from './changes.ts';
import { convertCell } from './convert-cell.ts';
import { convertTimes } from './convert-times.ts';
import type { Mapping } from './mapping.ts';
import { settle } from './questions.ts';
import type { Sheet, SheetRow } from './sheet.ts';

/** One column of a table made from a sheet. */
export interface AppliedColumn {
  readonly name: string;
  /** The columns of the sheet it was made from, as they are headed there. */
  readonly from: readonly string[];
}

/** A sheet as one of our tables, each row with the number it has in the sheet. */
export interface AppliedSheet {
  readonly sheet: Sheet;
  readonly table: TableName;
  readonly columns: readonly AppliedColumn[];
  readonly rows: readonly SheetRow[];
  /** What was changed on the way, to be told. */
  readonly changes: readonly Change[];
}

/**
 * Makes one of our tables from a sheet: mapped columns under our names, all others under their own.
 * Cells that could not be read, or about which a question is open, are as they were. Null when the
 * sheet is left out.
 */
export function applyMapping(sheet: Sheet, mapping: Mapping): AppliedSheet | null {
  const { table } = mapping;
  if (table === null) return null;
  const { columns } = settle(sheet, mapping);
  const changes = new Changes();
  const heading = (index: number): string => sheet.header[index] ?? '';
  const known = new Set(specOf(table).columns.map(({ name }) => name));
  const mapped = new Set(columns.map(({ index }) => index));
  const targets = [...new Set(columns.map(({ target }) => target.column.name))];
  const kept = sheet.header.map((_, index) => index).filter((index) => !mapped.has(index));
  const foundIn = new Map<number, Map<number, string>>();
  const asTable = sheet.rows.map(
    (sheetRow): { row: SheetRow; ours: ReadonlyMap<string, string> } => {
      const cells = sheetRow.cells.map(unguarded);
      const trimmed = cells.map((cell) => cell.trim());
      const ours = new Map(convertTimes(trimmed, columns, sheet.header, mapping, changes));
      for (const column of columns) {
        const { index, target } = column;
        if (target.kind === 'date' || target.kind === 'time' || target.kind === 'clock') continue;
        const text = (target.kind === 'as it is' ? cells : trimmed)[index] ?? '';
        const converted = convertCell(text, column, heading(index), changes);
        ours.set(target.column.name, converted.text);
        if (converted.found !== undefined) {
          const found = foundIn.get(index) ?? new Map<number, string>();
          foundIn.set(index, found.set(sheetRow.row, converted.found));
        }
      }
      return { row: sheetRow, ours };
    },
  );
  const asFound = [...foundIn.keys()];
  return {
    sheet,
    table,
    columns: [
      ...targets.map((name) => ({
        name,
        from: columns
          .filter(({ target }) => target.column.name === name)
          .map(({ index }) => heading(index)),
      })),
      ...kept.map((index) => ({ name: ownName(heading(index), known), from: [heading(index)] })),
      ...asFound.map((index) => ({ name: `${heading(index)} (as found)`, from: [heading(index)] })),
    ],
    rows: asTable.map(({ row: { row, cells }, ours }) => ({
      row,
      cells: [
        ...targets.map((name) => guarded(ours.get(name) ?? '', false)),
        ...kept.map((index) => cells[index] ?? ''),
        ...asFound.map((index) => guarded(foundIn.get(index)?.get(row) ?? '', false)),
      ],
    })),
    changes: [...aboveHeader(sheet), ...changes.list()],
  };
}

/** A sheet that is laid out as our table already, so that it can be joined with others. */
export function takenAsItIs(sheet: Sheet, table: TableName): AppliedSheet {
  const columns = sheet.header.map((name) => ({ name, from: [name] }));
  return { sheet, table, columns, rows: sheet.rows, changes: [] };
}

/** A column that is only carried along must not pass for one of ours. */
function ownName(heading: string, known: ReadonlySet<string>): string {
  return known.has(plainHeading(heading)) ? `${heading} (as found)` : heading;
}

function aboveHeader({ above }: Sheet): readonly Change[] {
  if (above.length === 0) return [];
  const said = above
    .map(({ cells }) => cells.filter((cell) => cell.trim() !== '').join(' '))
    .join(' / ');
  const rows = above.length === 1 ? 'a row' : `${above.length} rows`;
  const text = said.length > 120 ? `${said.slice(0, 117)}...` : said;
  return [{ column: '', message: `${rows} above the headings not taken: ${text}` }];
}
