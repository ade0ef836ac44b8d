import { type LoggedEvent, idOf } from './event-log.ts';
import { preferred } from './same-event.ts';

/**
 * The union of two logs by event id: any order, any repeats, the same result, sorted by id.
 * Where one device could read an event and the other could not, the one that could is kept.
 * Of two different bodies under one id every device keeps the same one (`preferred`).
 */
export function merge(
  mine: readonly LoggedEvent[],
  theirs: readonly LoggedEvent[],
): readonly LoggedEvent[] {
  const union = new Map<string, LoggedEvent>();
  for (const logged of [...mine, ...theirs]) {
    const id = idOf(logged);
    const held = union.get(id);
    union.set(id, held === undefined ? logged : betterRead(held, logged));
  }
  return [...union.values()].sort((a, b) => (idOf(a) < idOf(b) ? -1 : 1));
}

function betterRead(a: LoggedEvent, b: LoggedEvent): LoggedEvent {
  if (a === b) return a;
  if (a.state !== b.state) return a.state === 'known' ? a : b;
  return preferred(a, b);
}
