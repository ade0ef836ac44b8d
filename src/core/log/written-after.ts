import { parseInstant } from '../domain/instant.ts';
import type { SeasonEvent } from '../domain/event.ts';
import { RootFinder, byTarget, isAmending, treeOf } from './amendment-tree.ts';
import type { SeasonRecord } from './season-record.ts';
import type { EventBody } from './write-event.ts';

/**
 * When an event is to say that it was written, epoch milliseconds: now, but after everything on
 * record that it takes the place of. What was written with knowledge of something else then always
 * comes after it, also when the clock of the device that wrote the other one ran ahead. The idea of
 * hybrid logical clocks (Kulkarni et al., Logical Physical Clocks, OPODIS 2014), from memory.
 */
export function writtenAfter_ms(record: SeasonRecord, body: EventBody, now_ms: number): number {
  let latest_ms = -Infinity;
  for (const event of replacedBy(record, body)) {
    latest_ms = Math.max(latest_ms, parseInstant(event.written) ?? -Infinity);
  }
  return Math.max(now_ms, latest_ms + 1);
}

/** Events that the new one speaks of, or that it takes the place of in whole or in part. */
function replacedBy(record: SeasonRecord, body: EventBody): readonly SeasonEvent[] {
  switch (body.kind) {
    case 'nest-registered':
    case 'visit-noted':
    case 'orientation-recorded':
    case 'inventory-recorded':
    case 'conditions-noted':
      return [];
    case 'corrected':
    case 'withdrawn':
      return familyOf(record, body.target);
    case 'programme-described':
    case 'table-laid-out':
    case 'volunteer-enrolled':
    case 'availability-given':
    case 'weekly-pattern-given':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return [...record.events.values()].filter(({ kind }) => kind === body.kind);
  }
}

/** The fact that an event is about, with all that speaks of it. */
function familyOf({ events }: SeasonRecord, target: string): readonly SeasonEvent[] {
  const spokenOf = events.get(target);
  if (spokenOf === undefined) return [];
  let fact = spokenOf;
  if (isAmending(spokenOf)) {
    const root = new RootFinder(events).rootOf(spokenOf);
    if (root.kind !== 'fact') return [spokenOf];
    fact = root.fact;
  }
  const amending = [...events.values()].filter(isAmending);
  return [fact, ...treeOf(fact.id, byTarget(amending))];
}
