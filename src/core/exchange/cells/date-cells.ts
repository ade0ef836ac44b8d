import { readTime } from '../../domain/instant.ts';
import { parseNight } from '../../domain/night.ts';
import type { Cell, CellContext, Reading } from './cell.ts';

const ISO_DATE = /^\d{4}-\d{2}-\d{2}$/;
const ISO_TIME = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}(\.\d{1,9})?)?(Z|[+-]\d{2}:\d{2})?$/;
const CLOCK = /^(\d{1,2}):(\d{2})(?::00)?$/;

function dateCell(expected: string): Cell {
  return {
    expected: `${expected} written like 2026-07-20`,
    read: (text) => {
      if (parseNight(text) !== null) return { ok: true, value: text };
      return { ok: false, advice: dateAdvice(text) };
    },
  };
}

function dateAdvice(text: string): string {
  if (ISO_DATE.test(text)) return 'there is no such date';
  if (/^\d{4}-\d{2}-\d{2}[T ]/.test(text)) return 'leave out the time of day';
  return 'give the column the format yyyy-mm-dd (year, month, day)';
}

/** A night, by the date of its evening. */
export const nightCell = dateCell('the date of a night');

/** A date by the calendar. */
export const calendarDateCell = dateCell('a date');

/** An instant; without an offset it is read on the clocks of the programme. */
export const timeCell: Cell = {
  expected: 'a date and time written like 2026-07-20T21:10 or 2026-07-20T21:10-04:00',
  isTime: true,
  read: readInstant,
};

/**
 * Times read lately, by zone: a zone's rules are slow to consult and the same minute stands in
 * many rows. A cache only: it never changes an answer.
 */
const lately = new Map<string, Map<string, Reading>>();
const REMEMBERED = 50_000;

function readInstant(text: string, { zone }: CellContext): Reading {
  let known = lately.get(zone);
  if (known === undefined || known.size > REMEMBERED) {
    known = new Map<string, Reading>();
    lately.set(zone, known);
  }
  let reading = known.get(text);
  if (reading === undefined) known.set(text, (reading = consult(text, zone)));
  return reading;
}

function consult(text: string, zone: string): Reading {
  const time = readTime(text, zone);
  if (time !== null) return { ok: true, value: time.text };
  if (ISO_TIME.test(text)) return { ok: false, advice: 'there is no such date or time' };
  if (ISO_DATE.test(text)) return { ok: false, advice: 'the time of day is missing' };
  return { ok: false, advice: 'give the column the format yyyy-mm-ddThh:mm' };
}

/** A time of day on the programme's clocks. */
export const clockCell: Cell = {
  expected: 'a time of day written like 21:30',
  read: (text) => {
    const parts = CLOCK.exec(text);
    const [hour, minute] = [Number(parts?.[1]), Number(parts?.[2])];
    if (parts === null || hour > 23 || minute > 59) {
      return { ok: false, advice: 'use hours 00 to 23 and minutes 00 to 59' };
    }
    return { ok: true, value: `${parts[1]?.padStart(2, '0')}:${parts[2]}` };
  },
};
