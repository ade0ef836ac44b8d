import { parseInstant } from '../domain/instant.ts';
import type { SeasonEvent } from '../domain/event.ts';

/** What decides between two events that say different things: written later, then the larger id. */
export interface WrittenAt {
  readonly written_ms: number;
  readonly id: string;
}

/** When an event was written, as the order of amendments reads it. */
export function writtenAt(event: SeasonEvent): WrittenAt {
  return { written_ms: parseInstant(event.written) ?? 0, id: event.id };
}

/** Negative when `a` was written before `b`. A total order: the same on every device. */
export function byWriting(a: WrittenAt, b: WrittenAt): number {
  return a.written_ms - b.written_ms || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** Events, or what is made of them, in the order in which the events were written. */
export function inOrderOfWriting<Entry>(
  entries: Iterable<Entry>,
  eventOf: (entry: Entry) => SeasonEvent,
): Entry[] {
  return [...entries]
    .map((entry) => ({ entry, written: writtenAt(eventOf(entry)) }))
    .sort((a, b) => byWriting(a.written, b.written))
    .map(({ entry }) => entry);
}

/** In the order of ids, which is the order of the moments in them; a total order. */
export function byId(a: { readonly id: string }, b: { readonly id: string }): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
