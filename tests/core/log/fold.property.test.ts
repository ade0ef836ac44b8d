import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import { history } from '../../../src/core/log/history.ts';
import type { SeasonRecord } from '../../../src/core/log/season-record.ts';
import { seasonEvents } from '../../arbitraries/season-event.ts';

const seed = 20260720;
const runs = { seed, numRuns: 200 };

/** Everything in a record, with the order of what has an order. */
function whole(record: SeasonRecord): unknown {
  return {
    ...record,
    nests: [...record.nests].map(([id, nest]) => [id, { ...nest, notes: [...nest.notes] }]),
    layouts: [...record.layouts],
    events: new Set(record.events.keys()),
  };
}

const shuffled = seasonEvents.chain((events) =>
  fc.tuple(
    fc.constant(events),
    fc.shuffledSubarray([...events, ...events], {
      minLength: events.length * 2,
      maxLength: events.length * 2,
    }),
  ),
);

/** The events in some order, cut into some pieces. */
const cut = shuffled.chain(([events, order]) =>
  fc.record({
    events: fc.constant(events),
    pieces: fc.array(fc.nat({ max: order.length }), { maxLength: 6 }).map((places) => {
      const ends = [...places.sort((a, b) => a - b), order.length];
      return ends.map((end, index) => order.slice(ends[index - 1] ?? 0, end));
    }),
  }),
);

/** Every nest that an event names, by itself, in a changed value, or through what it speaks of. */
function nestsSpokenOf(event: SeasonEvent, all: ReadonlyMap<string, SeasonEvent>): Set<string> {
  const nests = new Set<string>();
  const seen = new Set<string>();
  for (let at: SeasonEvent | undefined = event; at !== undefined && !seen.has(at.id);) {
    seen.add(at.id);
    if ('nest' in at) nests.add(at.nest);
    at = 'target' in at ? all.get(at.target) : undefined;
  }
  return nests;
}

describe('a season folded from its events', () => {
  test('is the same for any order of the events and any repeats', () => {
    fc.assert(
      fc.property(shuffled, ([events, order]) => {
        expect(whole(fold(order))).toEqual(whole(fold(events)));
      }),
      runs,
    );
  });

  test('is the same when the events come in pieces', () => {
    fc.assert(
      fc.property(cut, ({ events, pieces }) => {
        let record: SeasonRecord | null = null;
        for (const piece of pieces) record = foldOn(record, piece);
        expect(record === null ? null : whole(record)).toEqual(whole(fold(events)));
      }),
      runs,
    );
  });

  test('leaves the record it goes on from as it was', () => {
    fc.assert(
      fc.property(cut, ({ pieces: [first = [], ...later] }) => {
        const before = fold(first);
        const copy = structuredClone(whole(before));
        foldOn(before, later.flat());
        expect(whole(before)).toEqual(copy);
      }),
      runs,
    );
  });

  test('keeps the identity of every nest that a new note does not speak of', () => {
    let kept = 0;
    fc.assert(
      fc.property(seasonEvents, fc.nat(), (events, pick) => {
        fc.pre(events.length > 0);
        const last = events[pick % events.length];
        fc.pre(last?.kind === 'visit-noted' || last?.kind === 'nest-registered');
        if (last === undefined || !('nest' in last)) return;
        const before = fold(events.filter((event) => event !== last));
        const after = foldOn(before, [last]);
        const spoken = new Set([last.nest, ...(after.events.size > 0 ? movedTo(last, after) : [])]);
        for (const [id, nest] of before.nests) {
          if (spoken.has(id)) continue;
          kept += 1;
          expect(after.nests.get(id)).toBe(nest);
        }
      }),
      runs,
    );
    expect(kept).toBeGreaterThan(150);
  });

  test('gives a fact’s last version in its history as the one that counts', () => {
    let compared = 0;
    fc.assert(
      fc.property(seasonEvents, (events) => {
        const record = fold(events);
        for (const { notes } of record.nests.values()) {
          for (const [id, note] of notes) {
            const last = history(record, id).at(-1);
            expect(last?.fact).toEqual(note.fact);
            expect(last?.withdrawn).toBe(note.withdrawn);
            compared += 1;
          }
        }
      }),
      runs,
    );
    expect(compared).toBeGreaterThan(500);
  });
});

/** The nests that corrections of a fact which came before it move it to. */
function movedTo(fact: SeasonEvent, record: SeasonRecord): readonly string[] {
  return [...record.events.values()].flatMap((event) =>
    event.kind === 'corrected' && nestsSpokenOf(event, record.events).has(nestOf(fact))
      ? [typeof event.changes['nest'] === 'string' ? event.changes['nest'] : '']
      : [],
  );
}

function nestOf(event: SeasonEvent): string {
  return 'nest' in event ? event.nest : '';
}
