import type { NestRecord } from '../../../core/log/season-record.ts';
import { dateWords } from '../../../core/domain/night-text.ts';
import type { NestFact } from './nest-facts.ts';

/** What was recorded of a nest besides visits, one line each: inventories and orientation. */
export function otherFacts({ inventories, orientations }: NestRecord): readonly NestFact[] {
  const inventory = inventories.map(({ fact: { details } }) => ({
    name: /* @wc-include */ 'inventory',
    value: [
      dateWords(details.date),
      counted(details.shells, /* @wc-include */ 'shells'),
      counted(details.unhatched, /* @wc-include */ 'unhatched'),
      counted(details.live_in_nest, 'live in nest'),
      counted(details.dead_in_nest, 'dead in nest'),
    ]
      .filter((part) => part !== null)
      .join(' · '),
  }));
  const orientation = orientations.map(({ fact: { details } }) => ({
    name: /* @wc-include */ 'orientation',
    value: [
      dateWords(details.night),
      counted(details.tracks_counted, /* @wc-include */ 'tracks'),
      counted(details.disoriented, /* @wc-include */ 'astray'),
      details.light_source ?? null,
    ]
      .filter((part) => part !== null)
      .join(' · '),
  }));
  return [...inventory, ...orientation];
}

function counted(count: number | null | undefined, what: string): string | null {
  return count === null || count === undefined ? null : `${count} ${what}`;
}
