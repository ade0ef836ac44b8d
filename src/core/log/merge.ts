import { type LoggedEvent, idOf } from './event-log.ts';

/**
 * The union of two logs by event id: any order, any repeats, the same result, sorted by id.
 * Where one device could read an event and the other could not, the one that could is kept.
 * Two different bodies under one id cannot both be right: the one whose text sorts first stays,
 * so that every device keeps the same one.
 */
export function merge(
  mine: readonly LoggedEvent[],
  theirs: readonly LoggedEvent[],
): readonly LoggedEvent[] {
  const union = new Map<string, LoggedEvent>();
  for (const logged of [...mine, ...theirs]) {
    const id = idOf(logged);
    const held = union.get(id);
    union.set(id, held === undefined ? logged : preferred(held, logged));
  }
  return [...union.values()].sort((a, b) => (idOf(a) < idOf(b) ? -1 : 1));
}

function preferred(a: LoggedEvent, b: LoggedEvent): LoggedEvent {
  if (a === b) return a;
  if (a.state !== b.state) return a.state === 'known' ? a : b;
  return sortedText(a) <= sortedText(b) ? a : b;
}

function sortedText(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
