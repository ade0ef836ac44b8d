import type { SeasonEvent } from '../../core/domain/event.ts';
import { fold } from '../../core/log/fold.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';

/** A finished season as it travels to a worker: a record itself cannot be sent. */
export interface FinishedEvents {
  readonly events: readonly SeasonEvent[];
  /** IANA zone of a season that names none. */
  readonly zone: string;
}

/** The records of finished seasons; those without a nest teach nothing and are left out. */
export function finishedRecords(finished: readonly FinishedEvents[]): readonly SeasonRecord[] {
  return finished
    .map(({ events, zone }) => fold(events, zone))
    .filter(({ nests }) => nests.size > 0);
}
