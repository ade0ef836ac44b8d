import type { EventId } from '../../../core/domain/event.ts';
import { parseInstant } from '../../../core/domain/instant.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import type { SeasonRecord } from '../../../core/log/season-record.ts';
import { recentVisits } from './remembered.ts';

/** A watch longer than this was forgotten, not kept. */
const longestWatch_ms = 14 * 3_600_000;

/** A watch that somebody began and has not ended: the note that began it. */
export interface OpenWatch {
  readonly note: EventId;
  readonly nest: NestId;
  readonly from_ms: number;
}

/**
 * The watches this observer has begun and not ended, newest first. A watch begins as a note with a
 * start and no end, so that it outlives a closed page; ending it corrects that note.
 */
export function openWatches(
  record: SeasonRecord,
  observer: string | null,
  now_ms: number,
): readonly OpenWatch[] {
  const open: OpenWatch[] = [];
  const earliest_ms = now_ms - longestWatch_ms;
  const mine = [...recentVisits(record, earliest_ms, Infinity)].filter(
    (visit) => visit.observer === observer,
  );
  for (const nest of new Set(mine.map((visit) => visit.nest))) {
    for (const { fact, withdrawn } of record.nests.get(nest)?.notes.values() ?? []) {
      const { details } = fact;
      if (withdrawn || (details.observer ?? null) !== observer) continue;
      // A count of hatchlings has its own screen and ends there.
      if ((details.emergence ?? null) !== null) continue;
      const from_ms = parseInstant(details.watched_from ?? '');
      if (from_ms === null || (details.watched_to ?? null) !== null) continue;
      if (from_ms > now_ms || from_ms < earliest_ms) continue;
      open.push({ note: fact.id, nest, from_ms });
    }
  }
  return open.sort((a, b) => b.from_ms - a.from_ms);
}
