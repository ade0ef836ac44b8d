import * as z from 'zod/mini';
import { saysTheSame } from '../../core/log/same-event.ts';
import type { Asker } from '../access/asker.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { type SentEvent, readSent } from './sent-event.ts';

/** Events that one batch may hold. */
export const mostEvents = 500;

/** An event that the hub did not take. */
export interface RefusedEvent {
  readonly id: string;
  readonly code: 'author' | 'taken' | 'unreadable' | 'too large' | 'rights' | 'not on record';
  readonly reason: string;
  /** Whether the same event may be taken later as it is. */
  readonly again: boolean;
}

/** An event that can be read. */
export interface Candidate {
  readonly event: SentEvent;
  /** Whether the device that sends it wrote it under its own name. */
  readonly isOwn: boolean;
}

export interface SortedBatch {
  readonly candidates: readonly Candidate[];
  readonly refused: readonly RefusedEvent[];
}

const Named = z.looseObject({ id: z.string().check(z.minLength(1), z.maxLength(100)) });

/** Reads the events of a batch, each id once. Refuses the whole when it cannot be told apart. */
export function sortBatch(
  asker: Pick<Asker, 'person' | 'name'>,
  own: readonly unknown[],
  carried: readonly unknown[],
): Outcome<SortedBatch> {
  const sent = [
    ...own.map((raw, at) => ({ raw, isOwn: true, place: `events[${at}]` })),
    ...carried.map((raw, at) => ({ raw, isOwn: false, place: `carried[${at}]` })),
  ];
  if (sent.length > mostEvents) {
    return turnedAway(
      413,
      'too large',
      `A batch holds ${mostEvents} events at most, this one ${sent.length}. Send it in parts.`,
    );
  }
  const byId = new Map<string, SentEvent | 'refused'>();
  const candidates: Candidate[] = [];
  const refused: RefusedEvent[] = [];
  for (const { raw, isOwn, place } of sent) {
    const named = Named.safeParse(raw);
    if (!named.success) {
      return turnedAway(
        400,
        'bad request',
        `${place} has no id. Send events as they lie in a log.`,
      );
    }
    const { id } = named.data;
    const before = byId.get(id);
    if (before === 'refused') continue;
    const read = readSent(raw);
    if (before !== undefined) {
      if (read.ok && saysTheSame(before.raw, raw)) continue;
      return turnedAway(
        400,
        'bad request',
        `${place}: the id ${id} is in this batch with two bodies.`,
      );
    }
    byId.set(id, read.ok ? read.event : 'refused');
    if (!read.ok) {
      refused.push({ id, code: read.code, reason: read.reason, again: false });
      continue;
    }
    const { event } = read;
    const isByAsker = event.author === asker.person && event.device === asker.name;
    if (isOwn && !isByAsker) {
      refused.push({ id, code: 'author', reason: authorText(asker, event), again: false });
    } else {
      candidates.push({ event, isOwn: isByAsker });
    }
  }
  return done({ candidates, refused });
}

function authorText({ person, name }: Pick<Asker, 'person' | 'name'>, event: SentEvent): string {
  const note =
    event.author === person
      ? `This note says that it was written on the device ${event.device}, and this is ${name}.`
      : `This note says that it was written by ${event.author || 'nobody'}, and this device is ${person}'s.`;
  return `${note} Nobody writes as somebody else: send it among those carried for others.`;
}
