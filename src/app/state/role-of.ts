import type { Role } from '../../core/domain/volunteer.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';

/** What the person who carries this device may do, by the list of people; null = nobody said. */
export function roleOf(record: SeasonRecord, author: string | null): Role | null {
  if (author === null) return null;
  const person = record.volunteers.find(({ fact }) => fact.volunteer === author);
  return person?.fact.details.role ?? null;
}
