import { addNights, asNight, formatNight, parseNight } from '../../domain/night.ts';
import type { Changes } from './changes.ts';
import { readClock } from './clock-text.ts';
import type { Mapping } from './mapping.ts';
import type { ColumnReading } from './questions.ts';
import { type When, readWhen } from './when-text.ts';
import { saysNothing } from './words.ts';

const NOON = '12:00';

/** The dates and times of one row, by the name of our column; a cell that cannot be read stays as it is. */
export function convertTimes(
  cells: readonly string[],
  columns: readonly ColumnReading[],
  header: readonly string[],
  mapping: Mapping,
  changes: Changes,
): ReadonlyMap<string, string> {
  const read = columns
    .filter(({ target }) => ['date', 'time', 'clock'].includes(target.kind))
    .map((column) => {
      const text = cells[column.index] ?? '';
      const when = column.isOpen ? null : readWhen(text, column.order);
      return { column, text, when, heading: header[column.index] ?? '' };
    });
  const values = new Map<string, string>();
  /** Evening of the row's own date that morning hours of other columns follow. */
  const row = timeOfRow(read, mapping, changes);
  if (row !== null) values.set('time', row.text);
  for (const { column, text, when, heading } of read) {
    const { name } = column.target.column;
    if (name === 'time' && (row !== null || values.has('time'))) {
      if (row === null) values.set('time', [values.get('time'), text].join(' ').trim());
      continue;
    }
    const tell = (kind: string, as: string): void => {
      if (as !== text) changes.add(heading, kind, `${text} read as ${as}`);
    };
    if (when === null) {
      const blank = !column.isOpen && saysNothing(text);
      if (blank) changes.add(heading, 'nothing', `“${text}” read as blank: not known`);
      values.set(name, blank ? '' : text);
    } else if (column.target.kind === 'date') {
      values.set(name, dateOf(when, name, text, tell));
    } else if (column.target.kind === 'clock') {
      const clock = readClock(text) ?? text;
      tell('clock', clock);
      values.set(name, clock);
    } else {
      const time = when.instant ?? whole(when, row) ?? text;
      tell('time', time);
      values.set(name, time);
    }
  }
  return values;
}

interface ReadCell {
  readonly column: ColumnReading;
  readonly text: string;
  readonly when: When | null;
  readonly heading: string;
}

/** The time of the visit itself: its text, its date, and its time of day if it has one. */
interface RowTime {
  readonly text: string;
  readonly date: string;
  /** The earliest of its times of day that is known. */
  readonly clock: string | null;
}

function timeOfRow(read: readonly ReadCell[], mapping: Mapping, changes: Changes): RowTime | null {
  const own = read.filter(({ column }) => column.target.column.name === 'time');
  const instant = own.map(({ when }) => when?.instant ?? null).find((found) => found !== null);
  if (instant !== undefined)
    return { text: instant, date: instant.slice(0, 10), clock: instant.slice(11, 16) };
  const dated = own.find(({ when }) => (when?.date ?? null) !== null);
  const date = dated?.when?.date ?? null;
  if (dated === undefined || date === null) return null;
  const tell = (kind: string, found: string, as: string): void =>
    changes.add(dated.heading, kind, `${found} read as ${as}`);
  const withClock = own.find(({ when }) => (when?.clock ?? null) !== null);
  const start = read.find(
    ({ column, when }) =>
      column.target.column.name === 'watched_from' && (when?.clock ?? null) !== null,
  );
  const clock = withClock?.when?.clock ?? null;
  if (clock !== null && withClock !== undefined) {
    const together = withClock === dated;
    const day = !together && mapping.smallHours === 'night' && clock < NOON ? next(date) : date;
    const text = `${day}T${clock}`;
    const found = together ? dated.text : `${dated.text} and ${withClock.text}`;
    if (found !== text) tell(day === date ? 'time' : 'night', found, text);
    return { text, date: day, clock };
  }
  const startClock = start?.when?.clock ?? null;
  if (start !== undefined && startClock !== null) {
    const isMoved = mapping.smallHours === 'night' && startClock < NOON;
    const day = start.when?.date ?? (isMoved ? next(date) : date);
    const text = `${day}T${startClock}`;
    const found = `${dated.text} without a time of day, and ${start.text} under “${start.heading}”,`;
    tell('start', found, text);
    return { text, date: day, clock: startClock };
  }
  if (mapping.clock === undefined) return { text: date, date, clock: null };
  const text = `${date}T${mapping.clock}`;
  tell('no clock', `${dated.text} without a time of day`, `${text}, as you chose`);
  return { text, date, clock: mapping.clock };
}

/** A time of day alone is of the row's date; in the morning after an evening, of the next one. */
function whole({ date, clock }: When, row: RowTime | null): string | null {
  if (clock === null) return date;
  if (date !== null) return `${date}T${clock}`;
  if (row === null) return null;
  const after = row.clock !== null && row.clock >= NOON && clock < NOON;
  return `${after ? next(row.date) : row.date}T${clock}`;
}

/** The date a column of ours wants: of a night when it is one of its names, else by the calendar. */
function dateOf(
  { date, clock, instant }: When,
  name: string,
  text: string,
  tell: (kind: string, as: string) => void,
): string {
  const day = instant?.slice(0, 10) ?? date;
  const hour = instant?.slice(11, 16) ?? clock ?? '00:00';
  if (day === null) return text;
  const isNight = name !== 'date' && hour !== '00:00' && hour < NOON;
  const as = isNight ? before(day) : day;
  tell(isNight ? 'night' : 'date', isNight ? `${as}, the night it belongs to` : as);
  return as;
}

const moved = (date: string, days: number): string =>
  formatNight(addNights(parseNight(date) ?? asNight(0), days));
const next = (date: string): string => moved(date, 1);
const before = (date: string): string => moved(date, -1);
