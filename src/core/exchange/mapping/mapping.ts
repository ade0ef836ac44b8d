import * as z from 'zod/mini';
import { TableName } from '../../domain/event.ts';
import { ownText } from '../cells/own-text.ts';
import { dateOrders } from './date-order.ts';
import { commas } from './number-style.ts';
import { plainText } from './plain-words.ts';
import type { Sheet } from './sheet.ts';
import { unitNames } from './units.ts';

/** What one column of a sheet becomes, and what was answered about it. */
const ColumnMapping = z.object({
  /** A column of our table; null = carried along under its own name. */
  to: z.nullable(z.string()),
  order: z.optional(z.enum(dateOrders)),
  unit: z.optional(z.enum(unitNames)),
  comma: z.optional(z.enum(commas)),
  /** By plain text: a word of ours, or empty text to leave the cell blank. */
  words: z.record(z.string(), z.string()),
});
export type ColumnMapping = Readonly<z.infer<typeof ColumnMapping>>;

/** What a word of a column was said to mean; undefined when nobody said. */
export function wordChosen(
  words: Readonly<Record<string, string>>,
  text: string,
): string | undefined {
  return ownText(words, plainText(text));
}

/** What a sheet becomes. */
export const Mapping = z.object({
  /** Null = the sheet is left out. */
  table: z.nullable(TableName),
  /** By `columnKeys`. */
  columns: z.record(z.string(), ColumnMapping),
  /** Of 01:30 beside a date: that date by the calendar, or the night of that date. */
  smallHours: z.optional(z.enum(['calendar', 'night'])),
  /** The time of day of visits for which the sheet has none. */
  clock: z.optional(z.enum(['21:00', '06:00'])),
});
export type Mapping = Readonly<z.infer<typeof Mapping>>;

/** A name for each column of a sheet by which it is known again: its heading, numbered if repeated. */
export function columnKeys(header: readonly string[]): readonly string[] {
  const times = new Map<string, number>();
  return header.map((heading) => {
    const plain = plainText(heading);
    const time = (times.get(plain) ?? 0) + 1;
    times.set(plain, time);
    return time === 1 ? `${plain}.` : `${plain}.${time}`;
  });
}

/** By what sheets with the same headings are known, in whatever order the columns stand. */
export function headingsKey(sheet: Sheet): string {
  return [...columnKeys(sheet.header)].sort().join('|');
}
