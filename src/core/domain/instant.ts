import * as ZonedDateTime from 'temporal-polyfill/fns/ZonedDateTime';
import * as z from 'zod/mini';
import { atWallClock, isTimeZone, type Night, parseNight, zonedAt } from './night.ts';

const WITH_OFFSET =
  /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,9}))?)?(?:Z|([+-])(\d{2}):(\d{2}))$/;
const WITHOUT_OFFSET = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,9}))?)?$/;

/** An instant as ISO 8601 text with its offset, such as `2026-07-20T21:10-04:00`. */
export const InstantText = z
  .string()
  .check(
    z.refine(
      (text) => parseInstant(text) !== null,
      'a time with its offset, written like 2026-07-20T21:10-04:00',
    ),
  )
  .brand<'InstantText'>();
export type InstantText = z.infer<typeof InstantText>;

const days = new Map<string, Night>();

/** The day of a date, remembered: a season has some hundred dates and a log names each many times. */
function dayOf(date: string): Night | null {
  const known = days.get(date);
  if (known !== undefined) return known;
  const day = parseNight(date);
  if (day !== null) days.set(date, day);
  return day;
}

/**
 * Epoch milliseconds of an ISO text with offset, or null when it is not a time that exists. Parts
 * of a millisecond are cut off. Worked out here, since browsers differ on what they accept.
 */
export function parseInstant(text: string): number | null {
  const parts = WITH_OFFSET.exec(text);
  const wall = parts === null ? null : wallOf(parts);
  if (parts === null || wall === null) return null;
  const [ahead_h, ahead_min] = [Number(parts[7] ?? 0), Number(parts[8] ?? 0)];
  if (ahead_h > 23 || ahead_min > 59) return null;
  const ahead = (ahead_h * 60 + ahead_min) * (parts[6] === '-' ? -1 : 1);
  return (wall.day * 1440 + wall.minute - ahead) * 60_000 + wall.rest_ms;
}

/** A day and a time of day by the parts of a text; null when there is no such time. */
function wallOf([, date = '', hh, mm, ss = '0', fraction = '']: readonly (string | undefined)[]) {
  const day = dayOf(date);
  const [hour, minute, second] = [Number(hh), Number(mm), Number(ss)];
  if (day === null || hour > 23 || minute > 59 || second > 59) return null;
  const millisecond = Number(fraction.slice(0, 3).padEnd(3, '0'));
  return { day, minute: hour * 60 + minute, rest_ms: second * 1000 + millisecond };
}

/**
 * Reads an ISO 8601 date and time; one without an offset is read on the clocks of `zone`.
 * Null when it is not such a text or names a time that does not exist.
 */
export function readTime(text: string, zone: string): { text: InstantText; at_ms: number } | null {
  const at_ms = parseInstant(text);
  if (at_ms !== null) return { text: text as InstantText, at_ms };
  const parts = WITHOUT_OFFSET.exec(text);
  const wall = parts === null ? null : wallOf(parts);
  if (wall === null || !isTimeZone(zone)) return null;
  const local_ms = atWallClock(wall.day, wall.minute, zone) + wall.rest_ms;
  return { text: formatInstant(local_ms, zone), at_ms: local_ms };
}

/** ISO 8601 text of an instant on the clocks of a zone; seconds only when there are any. */
export function formatInstant(at_ms: number, zone: string): InstantText {
  const zoned = zonedAt(at_ms, zone);
  const smallestUnit =
    at_ms % 60_000 === 0 ? 'minute' : at_ms % 1000 === 0 ? 'second' : 'millisecond';
  return ZonedDateTime.toString(zoned, { smallestUnit, timeZoneName: 'never' }) as InstantText;
}
