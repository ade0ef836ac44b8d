import { type EventId, SCHEMA, SeasonEvent } from '../domain/event.ts';
import { formatInstant } from '../domain/instant.ts';
import type { NestId } from '../domain/nest.ts';
import type { VisitDetails } from '../domain/visit.ts';
import { newEventId } from './event-id.ts';

/** An event without what the writing of it stamps on. */
export type EventBody<Event = SeasonEvent> = Event extends SeasonEvent
  ? Omit<Event, 'id' | 'schema' | 'at' | 'written' | 'author' | 'device'>
  : never;

/** Who writes, when, on what; a new one for every event, for the random bytes make its id. */
export interface Writing {
  /** Now, epoch milliseconds. */
  readonly now_ms: number;
  /** When it happened, epoch milliseconds; missing = now. */
  readonly at_ms?: number;
  /** 16 bytes that no other event was given. */
  readonly random: Uint8Array;
  /** Empty when nobody said who. */
  readonly author: string;
  readonly device: string;
  /** IANA name of the zone whose clocks the times are written by. */
  readonly zone: string;
}

export interface KnownEvent {
  readonly state: 'known';
  readonly event: SeasonEvent;
}

export type WrittenEvent =
  | ({ readonly ok: true } & KnownEvent)
  /** `field` is the path in the body, such as `details.clutch`. */
  | { readonly ok: false; readonly field: string; readonly message: string };

/** Makes an event from a body that comes from a form, or says which value does not fit and what would. */
export function tryWriteEvent(body: EventBody, writing: Writing): WrittenEvent {
  const { now_ms, at_ms = now_ms, random, author, device, zone } = writing;
  const read = SeasonEvent.safeParse({
    ...withoutUndefined(body),
    id: newEventId(now_ms, random),
    schema: SCHEMA,
    at: formatInstant(at_ms, zone),
    written: formatInstant(now_ms, zone),
    author,
    device,
  });
  if (read.success) return { ok: true, state: 'known', event: read.data };
  const first = read.error.issues[0];
  const field = first?.path.join('.') ?? '';
  return { ok: false, field, message: first?.message ?? 'not readable' };
}

/** Makes an event from a body that is known to be good. Throws when it is not. */
export function writeEvent(body: EventBody, writing: Writing): KnownEvent {
  const written = tryWriteEvent(body, writing);
  if (!written.ok) throw new RangeError(`${body.kind}: ${written.field}: ${written.message}`);
  return { state: 'known', event: written.event };
}

/** A note of one visit to a nest. */
export function noteVisit(nest: NestId, details: VisitDetails, writing: Writing): KnownEvent {
  return writeEvent({ kind: 'visit-noted', nest, details }, writing);
}

/** New values for an event by field name; null = not known after all. */
export function correctEvent(
  target: EventId,
  changes: Readonly<Record<string, unknown>>,
  writing: Writing,
  reason?: string,
): KnownEvent {
  const why = reason === undefined ? {} : { reason };
  return writeEvent({ kind: 'corrected', target, changes: { ...changes }, ...why }, writing);
}

/** Takes an event out of what counts; it stays in the history. */
export function withdrawEvent(target: EventId, writing: Writing, reason?: string): KnownEvent {
  const why = reason === undefined ? {} : { reason };
  return writeEvent({ kind: 'withdrawn', target, ...why }, writing);
}

/** A copy without keys that hold nothing: text cannot say `undefined`, so a log on disk would lose them. */
function withoutUndefined(value: object): object {
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, part]: [string, unknown]) => {
      if (part === undefined) return [];
      const isNested = typeof part === 'object' && part !== null && !Array.isArray(part);
      return [[key, isNested ? withoutUndefined(part) : part]];
    }),
  );
}
