import { Temporal } from 'temporal-polyfill';
import * as z from 'zod/mini';

const WITH_OFFSET = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,9})?)?(Z|[+-]\d{2}:\d{2})$/;
const WITHOUT_OFFSET = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(:\d{2}(\.\d{1,9})?)?$/;

/** An instant as ISO 8601 text with its offset, such as `2026-07-20T21:10-04:00`. */
export const InstantText = z
  .string()
  .check(
    z.refine(
      (text) => WITH_OFFSET.test(text) && parseInstant(text) !== null,
      'a time with its offset, written like 2026-07-20T21:10-04:00',
    ),
  )
  .brand<'InstantText'>();
export type InstantText = z.infer<typeof InstantText>;

/** Epoch milliseconds of an ISO text with offset, or null when it is not a time that exists. */
export function parseInstant(text: string): number | null {
  if (!WITH_OFFSET.test(text)) return null;
  const [date, time] = [text.slice(0, 10), text.slice(11)];
  const at_ms = Date.parse(time.length < 8 ? `${date}T${time}` : text);
  if (Number.isNaN(at_ms)) return null;
  const day_ms = Date.parse(`${date}T00:00Z`);
  if (Number.isNaN(day_ms) || new Date(day_ms).toISOString().slice(0, 10) !== date) return null;
  return at_ms;
}

/**
 * Reads an ISO 8601 date and time; one without an offset is read on the clocks of `zone`.
 * Null when it is not such a text or names a time that does not exist.
 */
export function readTime(text: string, zone: string): { text: InstantText; at_ms: number } | null {
  const at_ms = parseInstant(text);
  if (at_ms !== null) return { text: text as InstantText, at_ms };
  if (!WITHOUT_OFFSET.test(text)) return null;
  try {
    const wall = Temporal.PlainDateTime.from(text.replace(' ', 'T'), { overflow: 'reject' });
    const local_ms = wall.toZonedDateTime(zone, { disambiguation: 'compatible' }).epochMilliseconds;
    return { text: formatInstant(local_ms, zone), at_ms: local_ms };
  } catch {
    return null;
  }
}

/** ISO 8601 text of an instant on the clocks of a zone; seconds only when there are any. */
export function formatInstant(at_ms: number, zone: string): InstantText {
  const zoned = Temporal.Instant.fromEpochMilliseconds(at_ms).toZonedDateTimeISO(zone);
  const smallestUnit =
    at_ms % 60_000 === 0 ? 'minute' : at_ms % 1000 === 0 ? 'second' : 'millisecond';
  return zoned.toString({ smallestUnit, timeZoneName: 'never' }) as InstantText;
}
