import { describe, expect, test } from 'vitest';
import { addNights, parseNight } from '../../../src/core/domain/night.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { sittersOf, weekdayOf } from '../../../src/core/roster/sitters.ts';
import { Pen } from '../../arbitraries/written.ts';
import { clock, night } from '../../builders/season.ts';

const first = night('2026-07-20');
const nights = [0, 1, 2].map((ahead) => addNights(first, ahead));

describe('who can sit', () => {
  test('follows from the weekly pattern, a night given otherwise coming before it', () => {
    const pen = new Pen();
    const ada = { volunteer: 'Ada' } as const;
    const [sitter] = sittersOf(
      fold([
        pen.zone('America/New_York'),
        pen.write({ kind: 'volunteer-enrolled', ...ada, details: { experience: 'trained' } }),
        // 20 July 2026 is a Monday.
        pen.write({
          kind: 'weekly-pattern-given',
          ...ada,
          details: { days: [{ weekday: 1, from: '21:00' }, { weekday: 2 }] },
        }),
        pen.write({
          kind: 'availability-given',
          ...ada,
          details: { night: '2026-07-21' as never, available: false },
        }),
        pen.write({
          kind: 'availability-given',
          ...ada,
          details: { night: '2026-07-22' as never, to: '01:00' },
        }),
      ]),
      nights,
    );
    expect(sitter?.experienced).toBe(true);
    expect([...(sitter?.free ?? [])]).toEqual([
      [first, [{ from_ms: clock('2026-07-20', '21:00'), to_ms: Infinity }]],
      [addNights(first, 2), [{ from_ms: -Infinity, to_ms: clock('2026-07-22', '25:00') }]],
    ]);
  });

  test('is as it was said last', () => {
    const pen = new Pen();
    const say = (details: object) =>
      pen.write({
        kind: 'availability-given',
        volunteer: 'Ada',
        details: { night: '2026-07-20', ...details } as never,
      });
    const events = [pen.zone('America/New_York'), say({}), say({ available: false })];
    expect(sittersOf(fold(events), nights)[0]?.free.size).toBe(0);
    expect(sittersOf(fold([...events, say({ from: '22:00' })]), nights)[0]?.free.size).toBe(1);
  });

  test('counts the nights somebody has watched or was given out for as sat', () => {
    const pen = new Pen();
    const watched = pen.visit(
      'W-1',
      {
        observer: 'Ada',
        watched_from: '2026-07-15T21:00-04:00' as never,
        watched_to: '2026-07-15T23:00-04:00' as never,
      },
      '2026-07-15T21:00-04:00',
    );
    const post = {
      watch: 'evening',
      nests: ['W-1'],
      from: '2026-07-18T21:00-04:00',
      to: '2026-07-18T23:00-04:00',
      sitters: ['Ada'],
    };
    const given = (date: string) =>
      pen.write({ kind: 'night-published', details: { night: date, posts: [post] } as never });
    const events = [
      pen.zone('America/New_York'),
      pen.nest('W-1'),
      pen.write({ kind: 'volunteer-enrolled', volunteer: 'Ada', details: {} }),
      watched,
      given('2026-07-18'),
      given('2026-07-20'),
    ];
    expect(sittersOf(fold(events), nights)[0]?.sat).toEqual([
      parseNight('2026-07-15'),
      parseNight('2026-07-18'),
    ]);
  });

  test('leaves out those who only read, and takes strangers for beginners', () => {
    const pen = new Pen();
    const events = [
      pen.zone('America/New_York'),
      pen.write({ kind: 'volunteer-enrolled', volunteer: 'Rita', details: { role: 'reader' } }),
      pen.write({
        kind: 'availability-given',
        volunteer: 'Sam',
        details: { night: '2026-07-20' as never },
      }),
    ];
    expect(sittersOf(fold(events), nights)).toMatchObject([{ name: 'Sam', experienced: false }]);
  });
});

test('the weekday of a night is that of its evening', () => {
  expect(weekdayOf(night('2026-07-20'))).toBe(1);
  expect(weekdayOf(night('2026-07-26'))).toBe(7);
  expect(weekdayOf(night('1969-12-31'))).toBe(3);
});
