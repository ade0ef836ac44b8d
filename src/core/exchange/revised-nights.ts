import { parseInstant } from '../domain/instant.ts';
import { inOrderOfWriting } from '../log/order.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { RevisedNight } from './icalendar.ts';

/** Every plan that was given out for a night, in the order of writing, by night. */
export function revisedNights({ events, published }: SeasonRecord): readonly RevisedNight[] {
  const given = [...events.values()].flatMap((event) =>
    event.kind === 'night-published' ? [event] : [],
  );
  const nights = new Map<string, RevisedNight['revisions'][number][]>();
  for (const event of inOrderOfWriting(given, (one) => one)) {
    const { night, posts } = event.details;
    const revision = { written_ms: parseInstant(event.written) ?? 0, posts };
    nights.set(night, [...(nights.get(night) ?? []), revision]);
  }
  // A night whose last plan was withdrawn is one on which nobody sits.
  const standing = new Set<string>(published.map(({ fact }) => fact.details.night));
  return [...nights]
    .map(([night, revisions]): RevisedNight => {
      const last = revisions.at(-1);
      const isOff = !standing.has(night) && last !== undefined;
      return { night, revisions: isOff ? [...revisions, { ...last, posts: [] }] : revisions };
    })
    .sort((a, b) => (a.night < b.night ? -1 : 1));
}
