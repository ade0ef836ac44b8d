import type { EventId } from '../domain/event.ts';
import type { Visit } from '../domain/visit.ts';
import { type AmendmentsByTarget, standing } from './amend.ts';
import { nestOf, visitOf } from './as-domain.ts';
import { byWriting, writtenAt } from './order.ts';
import type { Fact, FactOf, NestRecord, Standing } from './season-record.ts';

/**
 * The record of one nest from the facts that speak of it, in any order; null while no registration
 * of it stands. Of several registrations the one written first stands.
 */
export function foldNest(
  facts: readonly Fact[],
  amendments: AmendmentsByTarget,
  zone: string,
): NestRecord | null {
  let registration: Standing<FactOf<'nest-registered'>> | null = null;
  const notes = new Map<EventId, Standing<FactOf<'visit-noted'>>>();
  const visits: Visit[] = [];
  const orientations: Standing<FactOf<'orientation-recorded'>>[] = [];
  const inventories: Standing<FactOf<'inventory-recorded'>>[] = [];
  for (const fact of [...facts].sort((a, b) => (a.id < b.id ? -1 : 1))) {
    switch (fact.kind) {
      case 'nest-registered': {
        const entry = standing(fact, amendments);
        const first =
          registration === null || byWriting(writtenAt(fact), writtenAt(registration.original)) < 0;
        if (!entry.withdrawn && first) registration = entry;
        break;
      }
      case 'visit-noted': {
        const entry = standing(fact, amendments);
        notes.set(fact.id, entry);
        if (!entry.withdrawn) visits.push(visitOf(entry.fact, zone));
        break;
      }
      case 'orientation-recorded': {
        const entry = standing(fact, amendments);
        if (!entry.withdrawn) orientations.push(entry);
        break;
      }
      case 'inventory-recorded': {
        const entry = standing(fact, amendments);
        if (!entry.withdrawn) inventories.push(entry);
        break;
      }
      default:
        break;
    }
  }
  if (registration === null) return null;
  visits.sort((a, b) => a.at_ms - b.at_ms || (a.id < b.id ? -1 : 1));
  return {
    nest: nestOf(registration.fact),
    registration,
    visits,
    notes,
    orientations,
    inventories,
  };
}
