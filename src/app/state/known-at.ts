import type { SeasonEvent } from '../../core/domain/event.ts';
import { parseInstant } from '../../core/domain/instant.ts';

/**
 * Whether an event of the invented season is known at an instant: what happened later is held back,
 * so that an evening in its middle can be looked at as it was. Its people, plans and programme are
 * known from the start.
 */
export function isKnownAt(event: SeasonEvent, at_ms: number): boolean {
  switch (event.kind) {
    case 'programme-described':
    case 'table-laid-out':
    case 'volunteer-enrolled':
    case 'availability-given':
    case 'weekly-pattern-given':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return true;
    case 'nest-registered':
    case 'visit-noted':
    case 'conditions-noted':
    case 'orientation-recorded':
    case 'inventory-recorded':
    case 'corrected':
    case 'withdrawn':
      return (parseInstant(event.at) ?? 0) <= at_ms;
  }
}
