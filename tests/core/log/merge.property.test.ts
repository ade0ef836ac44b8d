import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LoggedEvent } from '../../../src/core/log/event-log.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { merge } from '../../../src/core/log/merge.ts';
import { readEvent } from '../../../src/core/log/upcast.ts';
import { seasonEvents } from '../../arbitraries/season-event.ts';

const runs = { seed: 20260720, numRuns: 150 };

/** Logs that share events, some foreign, some under the same id with another body. */
const logs = seasonEvents.chain((events) => {
  const foreign: LoggedEvent[] = ['damaged {', { id: 'x', schema: 99 }, { no: 'id' }].map(
    readEvent,
  );
  const changed = events
    .slice(0, 5)
    .map((event) => readEvent({ ...event, author: 'Someone Else' }));
  const unread = events
    .slice(0, 3)
    .map(({ id }): LoggedEvent => ({ state: 'foreign', id, raw: { id }, why: 'older version' }));
  const known = events.map((event): LoggedEvent => ({ state: 'known', event }));
  const some = fc.subarray([...known, ...changed, ...unread, ...foreign]);
  return fc.tuple(some, some, some);
});

describe('merging logs', () => {
  test('gives the same whichever log is named first', () => {
    fc.assert(
      fc.property(logs, ([a, b]) => {
        expect(merge(a, b)).toEqual(merge(b, a));
      }),
      runs,
    );
  });

  test('gives the same whichever two of three are merged first', () => {
    fc.assert(
      fc.property(logs, ([a, b, c]) => {
        expect(merge(merge(a, b), c)).toEqual(merge(a, merge(b, c)));
      }),
      runs,
    );
  });

  test('of a log with itself, or again with what it has taken in, adds nothing', () => {
    fc.assert(
      fc.property(logs, ([a, b]) => {
        const once = merge(a, b);
        expect(merge(once, once)).toEqual(once);
        expect(merge(once, b)).toEqual(once);
      }),
      runs,
    );
  });

  test('leads to the season that both logs’ events give together', () => {
    const known = (log: readonly LoggedEvent[]) =>
      log.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
    fc.assert(
      fc.property(logs, ([a, b]) => {
        const merged = fold(known(merge(a, b)));
        const together = fold([...known(b), ...known(a)]);
        expect([...together.nests]).toEqual([...merged.nests]);
        expect(together.problems).toEqual(merged.problems);
      }),
      runs,
    );
  });
});
