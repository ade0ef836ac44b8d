import type { TableName } from '../../domain/event.ts';
import type { Cell, CellValue } from '../cells/cell.ts';

/** One column of a table in a season folder. */
export interface Column {
  readonly name: string;
  readonly cell: Cell;
  /** A row without it says nothing: the table must have the column and each row a value. */
  readonly required?: true;
  /** Written only when some row has a value: it is not among the columns everyone expects. */
  readonly optional?: true;
  /**
   * It came after the first tables: a row that leaves it blank stands for the same event as ever, and
   * one that fills it in for the event that an older version made of it as a column it did not know.
   */
  readonly later?: true;
}

/** The values of one row by column name; a missing name or null is a blank cell. */
export type RowValues = Readonly<Record<string, CellValue | null>>;

/** One thing a check has to say about a row; an `error` keeps the row out. */
export interface Finding {
  readonly severity: 'error' | 'warning';
  readonly column: string;
  readonly message: string;
  /** Say it once for the table, at the first row it holds for. */
  readonly once?: string;
}

/** One table of a season folder: how its cells are read and what its rows must fulfil. */
export interface TableSpec {
  readonly table: TableName;
  /** In the order of a table that nobody has laid out otherwise. */
  readonly columns: readonly Column[];
  /** What makes a row one of a kind: a second row with the same key is refused. Null = nothing does. */
  readonly uniqueBy: readonly string[] | null;
  /** By what a row is known again when it comes with other values. */
  readonly knownBy: readonly string[];
  /** What can be said of a row by itself. */
  readonly check: (values: RowValues) => readonly Finding[];
}

/** `nests.csv` for `nests`. */
export function fileOf(table: TableName): string {
  return `${table}.csv`;
}

export const text = (values: RowValues, name: string): string | null => {
  const value = values[name];
  return typeof value === 'string' ? value : null;
};

export const number = (values: RowValues, name: string): number | null => {
  const value = values[name];
  return typeof value === 'number' ? value : null;
};
