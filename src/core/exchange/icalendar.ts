import ical, { ICalCalendarMethod, ICalEventStatus } from 'ical-generator';
import { Temporal } from 'temporal-polyfill';
import { v5 } from 'uuid';
import { parseInstant } from '../domain/instant.ts';
import type { PublishedPost } from '../domain/roster.ts';
import { zoneComponent } from './icalendar-zone.ts';

/** A night's plan as it was given out one time after another; the last one holds. */
export interface RevisedNight {
  /** `yyyy-mm-dd` of its evening. */
  readonly night: string;
  readonly revisions: readonly {
    readonly written_ms: number;
    readonly posts: readonly PublishedPost[];
  }[];
}

export interface CalendarOptions {
  /** What the programme is called; part of what makes an entry one of a kind. */
  readonly programme: string;
  /** IANA zone of the programme's clocks, by which all times are told. */
  readonly zone: string;
  /** Whose shifts; null = everybody's, one entry for each post. */
  readonly person: string | null;
}

/** Namespace of the names of calendar entries; drawn once. */
const ENTRIES = '5b0c1f4e-52c9-4d55-9d41-0f6c0a1b7e23';
const manners = 'No white light or flash; keep back and low. Only permit holders handle or dig.';

/**
 * The shifts of a person, or of all, as an iCalendar text (RFC 5545). An entry keeps its UID when the
 * plan for its night is given out anew, with a higher SEQUENCE; one that is no longer in the plan is
 * there as cancelled, so that calendars take it out. Times are on the programme's clocks with the
 * changes of these clocks written along.
 */
export function calendarText(nights: readonly RevisedNight[], options: CalendarOptions): string {
  const entries = nights.flatMap((night) => entriesOf(night, options));
  const times = entries.flatMap(({ from_ms, to_ms }) => [from_ms, to_ms]);
  const { zone, person, programme } = options;
  const name = [programme === '' ? 'Nest watch' : programme, ...(person === null ? [] : [person])];
  const calendar = ical({
    prodId: { company: 'Firstdark', product: 'Roster', language: 'EN' },
    name: onOneLine(name.join(', ')),
    method: ICalCalendarMethod.PUBLISH,
    timezone: {
      // Its stamps must be in UTC (3.8.7.2), so only the entries have the zone.
      name: null,
      generator: () =>
        times.length === 0 ? null : zoneComponent(zone, Math.min(...times), Math.max(...times)),
    },
  });
  const at = (time_ms: number): Temporal.ZonedDateTime =>
    Temporal.Instant.fromEpochMilliseconds(time_ms).toZonedDateTimeISO(zone);
  for (const { key, from_ms, to_ms, written_ms, sequence, isOn, summary, detail } of entries) {
    calendar.createEvent({
      id: v5(JSON.stringify([programme, key]), ENTRIES),
      sequence,
      stamp: Temporal.Instant.fromEpochMilliseconds(written_ms),
      start: at(from_ms),
      end: at(to_ms),
      timezone: zone,
      summary: onOneLine(summary),
      description: onOneLine(detail),
      status: isOn ? ICalEventStatus.CONFIRMED : ICalEventStatus.CANCELLED,
    });
  }
  return calendar.toString();
}

/** Line breaks in a name would begin lines of their own in the calendar. */
const onOneLine = (text: string): string => text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ');

interface Entry {
  readonly key: readonly string[];
  readonly from_ms: number;
  readonly to_ms: number;
  readonly written_ms: number;
  readonly sequence: number;
  readonly isOn: boolean;
  readonly summary: string;
  readonly detail: string;
}

/** What stands in the last revision, and, cancelled, what stood in an earlier one and no longer does. */
function entriesOf({ night, revisions }: RevisedNight, { person }: CalendarOptions): Entry[] {
  const last = revisions.at(-1);
  if (last === undefined) return [];
  const entries = new Map<string, Entry>();
  for (const revision of revisions) {
    for (const post of revision.posts) {
      if (person !== null && !post.sitters.includes(person)) continue;
      const key =
        person === null ? [night, post.watch, post.nests[0] ?? ''] : [night, 'person', person];
      entries.set(JSON.stringify(key), {
        key,
        from_ms: parseInstant(post.from) ?? 0,
        to_ms: parseInstant(post.to) ?? 0,
        written_ms: last.written_ms,
        sequence: revisions.length - 1,
        isOn: revision === last,
        ...wordsOf(post, person),
      });
    }
  }
  return [...entries.values()].sort((a, b) => a.from_ms - b.from_ms);
}

function wordsOf(
  { nests, sitters }: PublishedPost,
  person: string | null,
): Pick<Entry, 'summary' | 'detail'> {
  const where = `${nests.length === 1 ? 'nest' : 'nests'} ${nests.join(', ')}`;
  const others = sitters.filter((name) => name !== person).join(', ');
  if (person === null) return { summary: `${where}: ${others}`, detail: manners };
  const company = others === '' ? [] : [`With ${others}.`];
  return {
    summary: `Nest watch, ${where}`,
    detail: [`Watch at ${where}.`, ...company, manners].join(' '),
  };
}
