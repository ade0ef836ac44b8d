import { parseInstant } from '../../domain/instant.ts';
import { unguarded } from '../csv/guard.ts';

/** What a cell can hold once it is read. */
export type CellValue = string | number | boolean | readonly string[] | readonly number[];

/** What the reading of a cell depends on besides its text. */
export interface CellContext {
  /** IANA zone by which times without offset are read. */
  readonly zone: string;
  /** Whether 27,4 may stand for 27.4: only where cells are not parted by commas. */
  readonly decimalComma: boolean;
}

export type Reading =
  | { readonly ok: true; readonly value: CellValue | null; readonly warning?: string }
  /** Why it could not be read; what was found is said by whoever reports it. */
  | { readonly ok: false; readonly advice: string };

/** One way of reading cells. */
export interface Cell {
  /** What it expects, as it stands after the word "expected". */
  readonly expected: string;
  /** Free text keeps the spaces around it. */
  readonly keepsSpace?: true;
  /** Times that name the same instant mean the same, however they are written. */
  readonly isTime?: true;
  readonly read: (text: string, context: CellContext) => Reading;
}

/** Reads one cell. A blank cell is null: not known, not looked; never zero, never an error. */
export function readCell(cell: Cell, raw: string, context: CellContext): Reading {
  const text = unguarded(raw);
  const trimmed = text.trim();
  if (trimmed === '') return blank;
  return cell.read(cell.keepsSpace === true ? text : trimmed, context);
}

const blank: Reading = { ok: true, value: null };

/** The text we write for a value; empty for null. */
export function valueText(value: CellValue | null | undefined): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return value;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? String(value) : value.join(';');
}

/** A text that two values share when they mean the same. */
export function meaning(value: CellValue | null | undefined, isTime: boolean): string {
  const written = valueText(value);
  return isTime && written !== '' ? String(parseInstant(written)) : written;
}
