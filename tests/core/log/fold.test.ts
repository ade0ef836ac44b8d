import { describe, expect, test } from 'vitest';
import { SeasonEvent } from '../../../src/core/domain/event.ts';
import { NestId } from '../../../src/core/domain/nest.ts';
import { parseNight } from '../../../src/core/domain/night.ts';
import { fold, foldOn } from '../../../src/core/log/fold.ts';
import type { NestRecord, SeasonRecord } from '../../../src/core/log/season-record.ts';
import { Pen, restamped } from '../../arbitraries/written.ts';

const nestIn = (record: SeasonRecord, name: string): NestRecord | undefined =>
  record.nests.get(NestId.parse(name));

describe('corrections', () => {
  test('replace a value and leave the rest, and what was first written stays on record', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1', { surface: 'dip', tracks: 2 });
    const record = fold([pen.nest('N-1'), visit, pen.correct(visit.id, { surface: 'caved' })]);
    const nest = nestIn(record, 'N-1');
    expect(nest?.visits).toMatchObject([{ surface: 'caved', tracks: 2 }]);
    expect(nest?.notes.get(visit.id)?.original).toBe(visit);
  });

  test('of the same value: the one written last holds, whichever came first', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1');
    const first = pen.correct(nest.id, { clutch: 90 });
    const last = pen.correct(nest.id, { clutch: 95 });
    expect(nestIn(fold([last, first, nest]), 'N-1')?.nest.clutch_eggs).toBe(95);
  });

  test('take a value away with null', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1', { clutch: 90 });
    const record = fold([nest, pen.correct(nest.id, { clutch: null })]);
    expect(nestIn(record, 'N-1')?.nest.clutch_eggs).toBeNull();
  });

  test('can come before the note that they speak of', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1', { surface: 'dip' });
    const before = fold([pen.nest('N-1'), pen.correct(visit.id, { surface: 'caved' })]);
    expect(before.problems.map(({ message }) => message)).toEqual([
      'It corrects a note that is not here (yet). It will hold when that note arrives.',
    ]);
    const after = foldOn(before, [visit]);
    expect(nestIn(after, 'N-1')?.visits[0]?.surface).toBe('caved');
    expect(after.problems).toEqual([]);
  });

  test('move a note to another nest, and back when the correction is withdrawn', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1');
    const before = fold([pen.nest('N-1'), pen.nest('N-2'), pen.nest('N-3'), visit]);
    const moving = pen.correct(visit.id, { nest: 'N-2' });
    const moved = foldOn(before, [moving]);
    expect(nestIn(moved, 'N-1')?.visits).toEqual([]);
    expect(nestIn(moved, 'N-2')?.visits).toMatchObject([{ id: visit.id, nest: 'N-2' }]);
    const back = foldOn(moved, [pen.withdraw(moving.id)]);
    expect(nestIn(back, 'N-1')?.visits).toHaveLength(1);
    expect(nestIn(back, 'N-2')?.visits).toEqual([]);
    expect(nestIn(back, 'N-3')).toBe(nestIn(before, 'N-3'));
  });

  test('of a correction speak of the same note, and fall with the one they speak of', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1', { surface: 'smooth' });
    const first = pen.correct(visit.id, { surface: 'dip' });
    const second = pen.correct(first.id, { surface: 'caved' });
    const events = [pen.nest('N-1'), visit, first, second];
    expect(nestIn(fold(events), 'N-1')?.visits[0]?.surface).toBe('caved');
    const withdrawn = fold([...events, pen.withdraw(first.id)]);
    expect(nestIn(withdrawn, 'N-1')?.visits[0]?.surface).toBe('smooth');
  });

  test('with a value that cannot be are kept, do not hold, and say what was expected', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1', { lay_night: '2026-06-01' });
    const wrong = pen.correct(nest.id, { lay_night: '2026-06-31' });
    const record = fold([nest, wrong]);
    expect(nestIn(record, 'N-1')?.nest.layNight).toBe(parseNight('2026-06-01'));
    expect(nestIn(record, 'N-1')?.registration.amendments).toMatchObject([{ holds: false }]);
    expect(record.problems).toEqual([
      {
        event: wrong.id,
        message:
          'A correction could not be used: lay_night: a date that exists, written like 2026-07-20. What was noted before stands. Correct it again with a value that fits.',
      },
    ]);
  });

  test('of a field that such a note does not have are told', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1');
    const record = fold([nest, pen.correct(nest.id, { clutch: 80, colour: 'red' })]);
    expect(nestIn(record, 'N-1')?.nest.clutch_eggs).toBe(80);
    expect(record.problems[0]?.message).toContain('It corrects colour, which such a note');
  });

  test('cannot change who wrote a note, or its id', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1');
    const changes = { author: 'Somebody Else', id: pen.visit('N-1').id, kind: 'nest-registered' };
    const record = fold([pen.nest('N-1'), visit, pen.correct(visit.id, changes)]);
    expect(nestIn(record, 'N-1')?.notes.get(visit.id)?.fact).toMatchObject({
      author: 'Ada Invented',
      id: visit.id,
      kind: 'visit-noted',
    });
  });
});

describe('withdrawals', () => {
  test('take a note out of what counts and keep it on record', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1');
    const record = fold([pen.nest('N-1'), visit, pen.withdraw(visit.id)]);
    expect(nestIn(record, 'N-1')?.visits).toEqual([]);
    expect(nestIn(record, 'N-1')?.notes.get(visit.id)?.withdrawn).toBe(true);
  });

  test('can be withdrawn, any number of times', () => {
    const pen = new Pen();
    const visit = pen.visit('N-1');
    const events = [pen.nest('N-1'), visit];
    let last = visit;
    for (let times = 1; times <= 2000; times++) {
      last = pen.withdraw(last.id);
      events.push(last);
    }
    expect(nestIn(fold(events), 'N-1')?.visits).toHaveLength(1);
    expect(nestIn(fold(events.slice(0, -1)), 'N-1')?.visits).toHaveLength(0);
  });

  test('of a nest leave its visits without a place until it is registered again', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1');
    const visit = pen.visit('N-1');
    const withdrawn = fold([nest, visit, pen.withdraw(nest.id)]);
    expect(withdrawn.nests.size).toBe(0);
    expect(withdrawn.unplaced.map(({ fact }) => fact.id)).toEqual([visit.id]);
    const again = foldOn(withdrawn, [pen.nest('N-1')]);
    expect(nestIn(again, 'N-1')?.visits).toHaveLength(1);
    expect(again.unplaced).toEqual([]);
  });

  test('that speak of each other in a ring, or of themselves, hold for nothing and are told', () => {
    const pen = new Pen();
    const one = pen.visit('N-1');
    const two = pen.visit('N-1');
    const about = (event: SeasonEvent, target: SeasonEvent): SeasonEvent =>
      SeasonEvent.parse({ ...event, kind: 'withdrawn', target: target.id });
    const ring = [about(one, two), about(two, one)];
    const self = pen.visit('N-1');
    const record = fold([pen.nest('N-1'), ...ring, about(self, self)]);
    expect(record.problems).toHaveLength(3);
    expect(record.problems[0]?.message).toContain('speaks of this one again');
  });
});

describe('a nest registered twice', () => {
  test('is described by the registration written first, and the other is told', () => {
    const pen = new Pen();
    const first = pen.nest('N-1', { clutch: 90 });
    const second = pen.nest('N-1', { clutch: 70 });
    const record = fold([second, first]);
    expect(nestIn(record, 'N-1')?.nest.clutch_eggs).toBe(90);
    expect(record.problems.map(({ event }) => event)).toEqual([second.id]);
  });

  test('is no problem once one of the two is withdrawn or given another name', () => {
    const pen = new Pen();
    const first = pen.nest('N-1', { clutch: 90 });
    const second = pen.nest('N-1', { clutch: 70 });
    const without = fold([first, second, pen.withdraw(first.id)]);
    expect(without.problems).toEqual([]);
    expect(nestIn(without, 'N-1')?.nest.clutch_eggs).toBe(70);
    const renamed = fold([first, second, pen.correct(second.id, { nest: 'N-9' })]);
    expect(renamed.problems).toEqual([]);
    expect([...renamed.nests.keys()]).toEqual(['N-1', 'N-9']);
  });
});

describe('the programme', () => {
  test('that comes late moves every visit to the night of its own clocks', () => {
    const pen = new Pen();
    // 20:00 in New York is midnight in UTC and 10:00 the next morning in Brisbane.
    const visit = pen.visit('N-1', {}, '2026-07-20T20:00-04:00');
    const before = fold([pen.nest('N-1'), visit]);
    expect(nestIn(before, 'N-1')?.visits).toMatchObject([
      { night: parseNight('2026-07-20'), half: 'evening' },
    ]);
    const after = foldOn(before, [pen.zone('Australia/Brisbane')]);
    expect(nestIn(after, 'N-1')?.visits).toMatchObject([
      { night: parseNight('2026-07-20'), half: 'dawn' },
    ]);
    expect(after.zone).toBe('Australia/Brisbane');
  });

  test('described twice is as it was described last', () => {
    const pen = new Pen();
    const [first, last] = [pen.zone('Europe/Athens'), pen.zone('America/New_York')];
    expect(fold([last, first]).zone).toBe('America/New_York');
  });

  test('is read on the device’s own clocks until it names its zone', () => {
    const pen = new Pen();
    const before = fold([pen.nest('N-1')], 'Europe/Athens');
    expect(before.zone).toBe('Europe/Athens');
    expect(foldOn(before, [], 'Australia/Brisbane').zone).toBe('Australia/Brisbane');
    expect(foldOn(before, [], 'Europe/Athens')).toBe(before);
  });
});

describe('events that come again', () => {
  test('change nothing, as a copy or as themselves', () => {
    const pen = new Pen();
    const events = [pen.nest('N-1'), pen.visit('N-1')];
    const record = fold(events);
    expect(foldOn(record, structuredClone(events))).toBe(record);
  });

  test('under the same id with another body: every device keeps the same one', () => {
    const pen = new Pen();
    const nest = pen.nest('N-1', { clutch: 90 });
    const other = SeasonEvent.parse({ ...nest, nest: 'N-2', details: { clutch: 90, shore_m: 4 } });
    for (const record of [
      fold([nest, other]),
      fold([other, nest]),
      foldOn(fold([nest]), [other]),
    ]) {
      expect([...record.nests.keys()]).toEqual(['N-2']);
    }
  });
});

test('a correction written by a clock that ran behind does not undo a later one', () => {
  const pen = new Pen();
  const nest = pen.nest('N-1');
  const behind = restamped(pen.correct(nest.id, { clutch: 1 }), Date.UTC(2020, 0, 1));
  const right = pen.correct(nest.id, { clutch: 2 });
  expect(nestIn(fold([nest, right, behind]), 'N-1')?.nest.clutch_eggs).toBe(2);
});

test('a watch that ends before it begins is no watch', () => {
  const pen = new Pen();
  const from = pen.visit('N-1').at;
  const to = pen.visit('N-1').at;
  const visit = pen.visit('N-1', { watched_from: to, watched_to: from });
  const record = fold([pen.nest('N-1'), visit]);
  expect(nestIn(record, 'N-1')?.visits[0]?.watch).toBeNull();
});

test('a record put together by hand can be folded on', () => {
  const pen = new Pen();
  const record = { ...fold([pen.nest('N-1')]) };
  const visit = pen.visit('N-1');
  expect(nestIn(foldOn(record, [visit]), 'N-1')?.visits).toMatchObject([{ id: visit.id }]);
});

test('two ways to go on from one record do not mix', () => {
  const pen = new Pen();
  const before = fold([pen.nest('N-1')]);
  const [one, other] = [pen.visit('N-1'), pen.visit('N-1')];
  const [left, right] = [foldOn(before, [one]), foldOn(before, [other])];
  expect(before.events.size).toBe(1);
  expect(before.events.has(one.id)).toBe(false);
  expect(left.events.has(other.id)).toBe(false);
  expect([...right.events.values()].map(({ kind }) => kind)).toEqual([
    'nest-registered',
    'visit-noted',
  ]);
  expect(right.events.get(other.id)).toBe(other);
});
