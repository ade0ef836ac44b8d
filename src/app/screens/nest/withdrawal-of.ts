import type { EventId } from '../../../core/domain/event.ts';
import type { NestRecord } from '../../../core/log/season-record.ts';

/** The withdrawal that takes a note out and holds; withdrawing it puts the note back. Null: none. */
export function withdrawalOf(record: NestRecord, note: EventId): EventId | null {
  const held = (record.notes.get(note)?.amendments ?? []).filter(
    ({ event, holds }) => holds && event.kind === 'withdrawn' && event.target === note,
  );
  return held.at(-1)?.event.id ?? null;
}
