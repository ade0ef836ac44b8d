import type { NestId } from '../../../core/domain/nest.ts';
import type { VisitDetails } from '../../../core/domain/visit.ts';
import type { FactOf } from '../../../core/log/season-record.ts';

/** A note as it is being corrected. */
export interface EditedNote {
  readonly nest: NestId;
  /** When it was made, ISO 8601 with offset. */
  readonly at: string;
  readonly details: VisitDetails;
}

/** A note as it stands, to begin a correction from. */
export function editedFrom({ nest, at, details }: FactOf<'visit-noted'>): EditedNote {
  return { nest, at, details };
}

/**
 * What a correction has to say: the new value of each field that differs, null where nothing is
 * known after all. Empty when nothing was changed.
 */
export function noteChanges(
  before: EditedNote,
  after: EditedNote,
): Readonly<Record<string, unknown>> {
  const changes: Record<string, unknown> = {};
  if (after.nest !== before.nest) changes['nest'] = after.nest;
  if (after.at !== before.at) changes['at'] = after.at;
  const [old, now]: [Record<string, unknown>, Record<string, unknown>] = [
    { ...before.details },
    { ...after.details },
  ];
  for (const field of new Set([...Object.keys(old), ...Object.keys(now)])) {
    const value = now[field] ?? null;
    if ((old[field] ?? null) !== value) changes[field] = value;
  }
  return changes;
}
