import type { SeasonEvent } from '../../domain/event.ts';
import { knownOf, type LoggedEvent } from '../../log/event-log.ts';
import { whyBeyondJson } from '../../log/beyond-json.ts';
import { inOrderOfWriting } from '../../log/order.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import { readEvent } from '../../log/upcast.ts';
import { decode } from '../decode.ts';
import type { Problem } from '../problem.ts';

export const ROSTER_FILE = 'roster.json';

/** What is settled of who sits where and has no table: who it is known by, and since when, matters. */
const kinds: ReadonlySet<SeasonEvent['kind']> = new Set([
  'weekly-pattern-given',
  'sight-judged',
  'pinned',
  'night-published',
]);

/**
 * The events about who sits where that have no table, in one record, with what corrects and withdraws
 * them: weekly patterns, calls on what one pair can watch, pins, plans given out.
 */
export function rosterEvents(events: Iterable<SeasonEvent>): readonly SeasonEvent[] {
  const all = [...events];
  const own = new Set(all.filter(({ kind }) => kinds.has(kind)).map(({ id }) => id));
  // An amendment may speak of another one; the list grows until nothing more belongs to it.
  for (let size = -1; size !== own.size;) {
    size = own.size;
    for (const event of all) {
      const amends = event.kind === 'corrected' || event.kind === 'withdrawn';
      if (amends && own.has(event.target)) own.add(event.id);
    }
  }
  return all.filter(({ id }) => own.has(id));
}

/**
 * `roster.json`: these events as they are, in the order of writing, so that a calendar keeps counting its
 * versions and one folder read on two devices is one record. Null when there are none.
 */
export function writeRosterFile({ events }: SeasonRecord): string | null {
  const own = inOrderOfWriting(rosterEvents(events.values()), (event) => event);
  return own.length === 0 ? null : `${JSON.stringify({ events: own }, null, 1)}\n`;
}

/** The events of a `roster.json`; those that cannot be read are told one by one and left out. */
export function readRosterFile(bytes: Uint8Array): {
  readonly events: readonly SeasonEvent[];
  readonly problems: readonly Problem[];
} {
  const list = listIn(decode(bytes).text);
  if (list === null) {
    const message = 'found no list of events; expected {"events": [ … ]}. The file is left out.';
    return { events: [], problems: [problem(0, message)] };
  }
  const read = list.map((raw): LoggedEvent => {
    const why = whyBeyondJson(raw);
    return why === null ? readEvent(raw) : { state: 'foreign', id: '', raw: null, why };
  });
  const known = rosterEvents(knownOf(read));
  const taken = new Set<string>(known.map(({ id }) => id));
  const problems = read.flatMap((logged, index): Problem[] => {
    if (logged.state === 'foreign') {
      return [problem(index + 1, `${logged.why}; expected an event. It is left out.`)];
    }
    const { id, kind } = logged.event;
    if (taken.has(id)) return [];
    const message = `found ${kind}; expected ${[...kinds].join(', ')}, or what amends one of these. It is left out.`;
    return [problem(index + 1, message)];
  });
  return { events: known, problems };
}

function listIn(text: string): readonly unknown[] | null {
  try {
    const json: unknown = JSON.parse(text);
    if (typeof json !== 'object' || json === null || !('events' in json)) return null;
    return Array.isArray(json.events) ? json.events : null;
  } catch {
    return null;
  }
}

function problem(row: number, message: string): Problem {
  return { file: ROSTER_FILE, row, column: '', message, severity: 'error' };
}
