import { Temporal } from 'temporal-polyfill';

/**
 * The VTIMEZONE of an IANA zone (RFC 5545, 3.6.5) as far as some instants need it: every change of its
 * clocks from the last before the first of them to the first after the last, each written out by
 * itself. A zone whose clocks do not change in that time has one observance.
 */
export function zoneComponent(zone: string, from_ms: number, to_ms: number): string {
  const start = Temporal.Instant.fromEpochMilliseconds(from_ms).toZonedDateTimeISO(zone);
  const changes: Temporal.ZonedDateTime[] = [];
  let change = start.getTimeZoneTransition('previous');
  while (change !== null) {
    changes.push(change);
    if (change.epochMilliseconds > to_ms) break;
    change = change.getTimeZoneTransition('next');
  }
  const observances = changes.map((at) =>
    observance(at.toPlainDateTime(), offsetBefore(at), at.offsetNanoseconds, at),
  );
  if (observances.length === 0 || changes[0] === undefined) {
    const always = Temporal.PlainDateTime.from('1970-01-01T00:00:00');
    observances.unshift(
      observance(always, start.offsetNanoseconds, start.offsetNanoseconds, start),
    );
  }
  return ['BEGIN:VTIMEZONE', `TZID:${zone}`, ...observances, 'END:VTIMEZONE'].join('\r\n');
}

function offsetBefore(change: Temporal.ZonedDateTime): number {
  return change.subtract({ nanoseconds: 1 }).offsetNanoseconds;
}

/** The onset is told on the clocks as they stood until then. */
function observance(
  wall: Temporal.PlainDateTime,
  from_ns: number,
  to_ns: number,
  at: Temporal.ZonedDateTime,
): string {
  const kind = to_ns > from_ns ? 'DAYLIGHT' : 'STANDARD';
  const onset = wall.subtract({ nanoseconds: to_ns - from_ns });
  const text = onset.toString({ smallestUnit: 'second' }).replaceAll(/[-:]/g, '');
  return [
    `BEGIN:${kind}`,
    `DTSTART:${text}`,
    `TZOFFSETFROM:${offsetText(from_ns)}`,
    `TZOFFSETTO:${offsetText(to_ns)}`,
    `TZNAME:${at.offset}`,
    `END:${kind}`,
  ].join('\r\n');
}

function offsetText(offset_ns: number): string {
  const minutes = Math.round(Math.abs(offset_ns) / 60e9);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${offset_ns < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}${two(minutes % 60)}`;
}
