import { type Night, parseNight } from './night.ts';

const DAY_MS = 86_400_000;
const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
const months = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** `Mon 20 Jul`, the date of a night's evening. */
export function nightText(night: Night): string {
  const date = new Date(night * DAY_MS);
  return `${weekdays[date.getUTCDay()] ?? ''} ${dayMonthText(night)}`;
}

/** `20 Jul`, the date of a night's evening without the weekday. */
export function dayMonthText(night: Night): string {
  const date = new Date(night * DAY_MS);
  return `${date.getUTCDate()} ${monthText(date.getUTCMonth())}`;
}

/** `Mon 20 Jul` of a date as it is written in the record; as it is written where it is none. */
export function dateWords(text: string): string {
  const night = parseNight(text);
  return night === null ? text : nightText(night);
}

/** Three letters of a month, 0 = January. */
export function monthText(month: number): string {
  return months[month] ?? '';
}
