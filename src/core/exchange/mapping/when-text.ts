import { parseInstant } from '../../domain/instant.ts';
import { readClock } from './clock-text.ts';
import { type DateOrder, readDay, serialDay } from './date-order.ts';

/** What a cell says of a time: its date, its time of day, or both; `instant` when it has its offset. */
export interface When {
  readonly date: string | null;
  readonly clock: string | null;
  readonly instant: string | null;
}

/** What a cell says that is no time. */
export const noTime: When = { date: null, clock: null, instant: null };

const SERIAL_WITH_TIME = /^(\d{5})([.,]\d+)$/;

/** Reads a date, a time of day, or both in one text; null when it is neither. */
export function readWhen(text: string, order: DateOrder): When | null {
  const trimmed = text.trim();
  if (parseInstant(trimmed) !== null) return { date: null, clock: null, instant: trimmed };
  const date = readDay(trimmed, order);
  if (date !== null) return { date, clock: null, instant: null };
  const clock = readClock(trimmed);
  if (clock !== null) return { date: null, clock, instant: null };
  const serial = SERIAL_WITH_TIME.exec(trimmed);
  if (serial !== null) {
    const day = serialDay(Number(serial[1]));
    const part = readClock(`0${serial[2] ?? ''}`);
    return day === null || part === null ? null : { date: day, clock: part, instant: null };
  }
  return split(trimmed, order);
}

/** Tries each gap of the text: a date before it and a time of day after it, or the other way round. */
function split(text: string, order: DateOrder): When | null {
  for (const gap of text.matchAll(/(?<=\d)[T,](?=\d)|,?\s+(?:-\s+|a las?\s+|at\s+)?/gi)) {
    const [left, right] = [text.slice(0, gap.index), text.slice(gap.index + gap[0].length)];
    const whole = pair(left, right, order) ?? pair(right, left, order);
    if (whole !== null) return whole;
  }
  return null;
}

function pair(day: string, time: string, order: DateOrder): When | null {
  const clock = readClock(time);
  const date = clock === null ? null : readDay(day, order);
  return date === null ? null : { date, clock, instant: null };
}
