import { expect, test } from 'vitest';
import { carriedOver } from '../../../src/app/state/carried-over.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { Pen } from '../../arbitraries/written.ts';

test('a new season begins with the programme, its people and the weekdays they keep', () => {
  const pen = new Pen();
  const enrol = (volunteer: string) =>
    pen.write({ kind: 'volunteer-enrolled', volunteer, details: { experience: 'trained' } });
  const rule = (volunteer: string, details: object) =>
    pen.write({ kind: 'weekly-pattern-given', volunteer, details: details as never });
  const record = fold([
    pen.zone('America/New_York'),
    ...['Ada', 'Bo', 'Cy', 'Di'].map(enrol),
    rule('Ada', { days: [{ weekday: 1 }] }),
    rule('Ada', { days: [{ weekday: 2, from: '21:00' }], first_night: '2026-06-01' }),
    rule('Bo', { days: [{ weekday: 3 }], last_night: '2026-08-31' }),
    rule('Cy', { days: [] }),
    rule('Eve', { days: [{ weekday: 5 }] }),
  ]);
  expect(carriedOver(record)).toEqual([
    { kind: 'programme-described', programme: { time_zone: 'America/New_York' } },
    ...['Ada', 'Bo', 'Cy', 'Di'].map((volunteer) => ({
      kind: 'volunteer-enrolled',
      volunteer,
      details: { experience: 'trained' },
    })),
    // The rule that was said last; one that had an end ended, and a stranger's goes with the stranger.
    {
      kind: 'weekly-pattern-given',
      volunteer: 'Ada',
      details: { days: [{ weekday: 2, from: '21:00' }] },
    },
  ]);
});
