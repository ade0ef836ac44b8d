import * as z from 'zod/mini';
import { EventId, SCHEMA } from '../../core/domain/event.ts';
import { InstantText } from '../../core/domain/instant.ts';
import { whyBeyondJson } from '../../core/log/beyond-json.ts';
import { readEvent } from '../../core/log/upcast.ts';

/** Bytes that one event may have as JSON. */
export const mostBytes = 64 * 1024;
/** How deep lists and objects may lie in each other. */
const deepest = 32;

/** An event on its way into the record, read as far as the hub needs to. */
export interface SentEvent {
  readonly id: string;
  readonly kind: string;
  readonly schema: number;
  readonly author: string;
  readonly device: string;
  /** The event that a correction or a withdrawal speaks of. */
  readonly target: string | null;
  /** As it was sent. */
  readonly raw: unknown;
  readonly text: string;
}

export type EventRead =
  | { readonly ok: true; readonly event: SentEvent }
  | { readonly ok: false; readonly code: 'unreadable' | 'too large'; readonly reason: string };

/** What an event of a newer version must have for this one to keep it and pass it on. */
const NewerEnvelope = z.looseObject({
  id: EventId,
  schema: z.int().check(z.gt(SCHEMA), z.lte(1_000_000)),
  kind: z.string().check(z.regex(/^[a-z][a-z0-9-]{0,63}$/, 'a kind such as visit-noted')),
  at: InstantText,
  written: InstantText,
  author: z.string(),
  device: z.string(),
  target: z.optional(EventId),
});

/** Reads one event of a batch: by today's schema, or the envelope alone of a newer one. */
export function readSent(raw: unknown): EventRead {
  const beyond = whyBeyondJson(raw, deepest);
  if (beyond !== null) return unreadable(beyond);
  const text = JSON.stringify(raw);
  const bytes = Buffer.byteLength(text);
  if (bytes > mostBytes) {
    const kB = Math.ceil(bytes / 1024);
    const reason = `This note is too large to be shared: ${kB} kB, and ${mostBytes / 1024} kB is the most. It stays on this device; a backup takes it along.`;
    return { ok: false, code: 'too large', reason };
  }
  const newer = z.looseObject({ schema: z.int().check(z.gt(SCHEMA)) }).safeParse(raw);
  if (newer.success) {
    const read = NewerEnvelope.safeParse(raw);
    if (!read.success) return unreadable(firstIssue(read.error));
    const { id, kind, schema, author, device, target = null } = read.data;
    return { ok: true, event: { id, kind, schema, author, device, target, raw, text } };
  }
  const read = readEvent(raw);
  if (read.state === 'foreign') return unreadable(read.why);
  const { id, kind, schema, author, device } = read.event;
  const target = 'target' in read.event ? read.event.target : null;
  return { ok: true, event: { id, kind, schema, author, device, target, raw, text } };
}

function unreadable(why: string): EventRead {
  const reason = `This note cannot be read (${why}). It stays on this device; a backup takes it along.`;
  return { ok: false, code: 'unreadable', reason };
}

function firstIssue({ issues }: z.core.$ZodError): string {
  const [first] = issues;
  return first === undefined ? 'not readable' : `${first.path.join('.')}: ${first.message}`;
}
