import type { EventId } from '../../../core/domain/event.ts';
import { parseInstant } from '../../../core/domain/instant.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import type { VisitDetails } from '../../../core/domain/visit.ts';
import type { SeasonRecord } from '../../../core/log/season-record.ts';

/** A count older than this was forgotten, not kept up. */
const longestCount_ms = 12 * 3_600_000;

/** A count of hatchlings that somebody began and has not ended; null when there is none. */
export function openCount(
  record: SeasonRecord,
  nest: NestId,
  observer: string | null,
  now_ms: number,
): { readonly note: EventId; readonly details: VisitDetails } | null {
  const notes = [...(record.nests.get(nest)?.notes.values() ?? [])];
  const open = notes.filter(({ fact: { details }, withdrawn }) => {
    const from_ms = parseInstant(details.watched_from ?? '');
    const isOpen = (details.emergence ?? null) !== null && (details.watched_to ?? null) === null;
    const isMine = (details.observer ?? null) === observer;
    return !withdrawn && isOpen && isMine && from_ms !== null && now_ms - from_ms < longestCount_ms;
  });
  const last = open.at(-1)?.fact;
  return last === undefined ? null : { note: last.id, details: last.details };
}
