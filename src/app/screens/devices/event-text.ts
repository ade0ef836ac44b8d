import { parseInstant } from '../../../core/domain/instant.ts';
import type { SeasonEvent } from '../../../core/domain/event.ts';
import { dateText, hourText } from '../note/words.ts';

/** What an event is, of what and when: `Note of W-014, 20 July 21:10`. */
export function eventText(event: SeasonEvent | undefined, zone: string): string {
  if (event === undefined) return 'An entry that this version cannot read.';
  const at_ms = parseInstant(event.at);
  const when = at_ms === null ? event.at : `${dateText(at_ms, zone)} ${hourText(at_ms, zone)}`;
  return `${subjectOf(event)}, ${when}.`;
}

function subjectOf(event: SeasonEvent): string {
  switch (event.kind) {
    case 'nest-registered':
      return `Registration of ${event.nest}`;
    case 'visit-noted':
      return `Note of ${event.nest}`;
    case 'orientation-recorded':
      return `Tracks of ${event.nest}`;
    case 'inventory-recorded':
      return `Inventory of ${event.nest}`;
    case 'conditions-noted':
      return 'Weather';
    case 'programme-described':
      return 'The programme';
    case 'table-laid-out':
      return `Columns of ${event.table}`;
    case 'volunteer-enrolled':
      return `On the list of people: ${event.volunteer}`;
    case 'availability-given':
    case 'weekly-pattern-given':
      return `When ${event.volunteer} can`;
    case 'sight-judged':
      return 'What one pair can watch';
    case 'pinned':
      return 'A pin on the roster';
    case 'night-published':
      return 'A roster given out';
    case 'corrected':
      return 'A correction';
    case 'withdrawn':
      return 'A withdrawal';
  }
}
