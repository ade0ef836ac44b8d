import * as PlainDateTime from 'temporal-polyfill/fns/PlainDateTime';
import * as ZonedDateTime from 'temporal-polyfill/fns/ZonedDateTime';
import * as z from 'zod/mini';

/**
 * A night as a whole number: days from 1970-01-01 to the date of its evening.
 * The night of a date runs from noon on that date to noon on the next, local time.
 */
export type Night = number & z.core.$brand<'Night'>;

/** The text of a night: the date of its evening, `yyyy-mm-dd`. */
export const NightText = z
  .string()
  .check(
    z.refine((text) => parseNight(text) !== null, 'a date that exists, written like 2026-07-20'),
  )
  .brand<'NightText'>();
export type NightText = z.infer<typeof NightText>;

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** The night whose evening falls on this date, or null when the text is not a date that exists. */
export function parseNight(text: string): Night | null {
  const parts = DATE.exec(text);
  if (parts === null) return null;
  const [, year, month, day] = parts.map(Number) as [number, number, number, number];
  const at_ms = Date.UTC(year, month - 1, day);
  const date = new Date(at_ms);
  const exists = date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
  return exists && date.getUTCFullYear() === year ? asNight(at_ms / DAY_MS) : null;
}

/** `yyyy-mm-dd` of the evening of a night. */
export function formatNight(night: Night): NightText {
  return new Date(night * DAY_MS).toISOString().slice(0, 10) as NightText;
}

/** Marks a whole number of days since 1970-01-01 as a night. Throws on a fraction. */
export function asNight(days: number): Night {
  if (!Number.isInteger(days)) throw new RangeError(`A night is a whole number, not ${days}.`);
  return days as Night;
}

/** The night `count` nights later (earlier when negative). */
export function addNights(night: Night, count: number): Night {
  return asNight(night + count);
}

const offsets = new Map<string, Map<number, number>>();

/**
 * Minutes that the clocks of an IANA zone are ahead of UTC at an instant.
 * Remembered by the hour: a zone changes its clocks on the hour or half hour of UTC, so the
 * memory is keyed by half hours.
 */
function offset_min(zone: string, at_ms: number): number {
  const half = Math.floor(at_ms / (HOUR_MS / 2));
  let known = offsets.get(zone);
  if (known === undefined) offsets.set(zone, (known = new Map<number, number>()));
  let minutes = known.get(half);
  if (minutes === undefined) {
    minutes = ZonedDateTime.offsetNanoseconds(zonedAt(half * (HOUR_MS / 2), zone)) / 60e9;
    known.set(half, minutes);
  }
  return minutes;
}

/** The wall clock of a zone at an instant: days since 1970-01-01 and minutes since midnight. */
export function wallClock(at_ms: number, zone: string): { day: number; minute: number } {
  const local_min = Math.floor(at_ms / 60_000) + offset_min(zone, at_ms);
  const day = Math.floor(local_min / 1440);
  return { day, minute: local_min - day * 1440 };
}

/** The night an instant belongs to in a time zone: 02:10 on 21 July is the night of 20 July. */
export function nightOf(at_ms: number, zone: string): Night {
  const { day, minute } = wallClock(at_ms, zone);
  return asNight(minute < 720 ? day - 1 : day);
}

const noons = new Map<string, number>();

/** Noon of a day in a zone; remembered, since finding it costs more than a sunset. */
function noon_ms(day: number, zone: string): number {
  const key = `${day}|${zone}`;
  let known = noons.get(key);
  if (known === undefined) noons.set(key, (known = atWallClock(day, 720, zone)));
  return known;
}

/** Local noon to local noon, as epoch milliseconds: 23 or 25 hours when the clocks change. */
export function nightBounds(night: Night, zone: string): { from_ms: number; to_ms: number } {
  return { from_ms: noon_ms(night, zone), to_ms: noon_ms(night + 1, zone) };
}

/**
 * Epoch milliseconds when the clocks of a zone show `minute` minutes past midnight of a day.
 * A time the clocks skip is read with the offset before the change, one they show twice as the first.
 */
export function atWallClock(day: number, minute: number, zone: string): number {
  const date = new Date(day * DAY_MS);
  const midnight = PlainDateTime.fromFields({
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    day: date.getUTCDate(),
  });
  const wall = PlainDateTime.addMinutes(midnight, minute);
  return PlainDateTime.toZonedDateTime(wall, zone, { disambiguation: 'compatible' })
    .epochMilliseconds;
}

/** An instant on the clocks of a zone. Throws on a zone that is not known. */
export function zonedAt(at_ms: number, zone: string): ZonedDateTime.Record {
  return ZonedDateTime.create(BigInt(at_ms) * 1_000_000n, zone);
}

/** Whether an IANA time zone of this name is known here. */
export function isTimeZone(zone: string): boolean {
  try {
    zonedAt(0, zone);
    return true;
  } catch {
    return false;
  }
}
