import { expect, test } from 'vitest';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { EventsSoFar } from '../../../src/core/log/events-so-far.ts';
import { knownOf } from '../../../src/core/log/event-log.ts';
import { Pen } from '../../arbitraries/written.ts';

const pen = new Pen();
const notes = (count: number): readonly SeasonEvent[] =>
  knownOf(
    Array.from({ length: count }, () =>
      pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: {} }),
    ),
  );

test('what came since an earlier moment is told, and a moment stays as it was', () => {
  const [first, second, third] = [notes(3), notes(1), notes(2)];
  const before = EventsSoFar.none.with(first);
  const after = before.with(second).with(third);
  expect(after.since(before)).toEqual([...second, ...third]);
  expect(after.since(after)).toEqual([]);
  expect([...before.values()]).toEqual(first);
});

test('of a moment that these do not go on from nothing is said', () => {
  const before = EventsSoFar.none.with(notes(2));
  const [mine, theirs] = [before.with(notes(1)), before.with(notes(1))];
  expect(mine.since(theirs)).toBeNull();
  expect(theirs.since(mine)).toBeNull();
  expect(before.since(mine)).toBeNull();
});
