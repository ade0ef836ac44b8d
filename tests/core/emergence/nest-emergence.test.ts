import { describe, expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import { emergenceAt } from '../../../src/core/emergence/nest-emergence.ts';
import { dueOf } from '../../../src/core/inventory/nest-due.ts';
import { merge } from '../../../src/core/log/merge.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { SeasonBuilder, night } from '../../builders/season.ts';
import { Pen } from '../../arbitraries/written.ts';

function nestIn(season: ReturnType<typeof fold>, name = 'W-1') {
  const nest = season.nests.get(NestId.parse(name));
  if (nest === undefined) throw new Error(`${name} is on record`);
  return { nest, season, emergence: emergenceAt(nest, season.zone, 10) };
}

describe('what came up at a nest', () => {
  const seen = new SeasonBuilder()
    .nest('W-1', { lay_night: '2026-05-20' })
    .watch('W-1', '2026-07-18', '21:00', '23:00', 2)
    .watch('W-1', '2026-07-20', '21:00', '24:10', 84)
    .visit('W-1', '2026-07-20', { kind: 'morning', tracks: 60 })
    .watch('W-1', '2026-07-21', '21:00', '22:00', 3)
    .visit('W-1', '2026-07-22', { kind: 'morning', tracks: 1 });

  test('is the boil on its night, stragglers on theirs, and the last night of any', () => {
    const { emergence } = nestIn(seen.record());
    expect(emergence.totals.map((total) => [total.night, total.emergence, total.emerged])).toEqual([
      [night('2026-07-18'), 'stragglers', 2],
      [night('2026-07-20'), 'boil', 84],
      [night('2026-07-21'), 'stragglers', 3],
    ]);
    expect(emergence).toMatchObject({
      boil: night('2026-07-20'),
      boilBy: 'sit',
      boilTracks: 60,
      lastSeen: night('2026-07-22'),
    });
  });

  test('puts its inventory off until stragglers have stopped for as long', () => {
    const { nest, season } = nestIn(seen.record());
    expect(dueOf(nest, season)).toMatchObject({ on: night('2026-07-25'), putOff: true });
  });

  test('is known by its tracks when nobody sat there', () => {
    const dawn = new SeasonBuilder().nest('W-1').visit('W-1', '2026-07-20', {
      kind: 'morning',
      tracks: 55,
    });
    const { emergence } = nestIn(dawn.record());
    expect(emergence).toMatchObject({
      totals: [],
      boil: night('2026-07-20'),
      boilBy: 'tracks',
      boilTracks: 55,
    });
  });
});

test('counts that two people wrote on two devices add up once the records are merged, and only once', () => {
  const [ada, bo] = [new Pen('Ada Invented', 1), new Pen('Bo Invented', 2)];
  const shared = ada.logged({
    kind: 'nest-registered',
    nest: ada.nestId('W-1'),
    details: { lay_night: null },
  });
  const count = (pen: Pen, emerged: number) =>
    pen.logged({
      kind: 'visit-noted',
      nest: pen.nestId('W-1'),
      details: { observer: pen.author, emergence: 'boil', counting: 'part', emerged },
    });
  const [mine, theirs] = [
    [shared, count(ada, 41)],
    [shared, count(bo, 38)],
  ];
  const both = merge(merge(mine, theirs), mine);
  const events = both.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
  const { emergence } = nestIn(fold(events, 'America/New_York'));
  expect(emergence.totals).toHaveLength(1);
  expect(emergence.totals[0]).toMatchObject({
    emerged: 79,
    counters: ['Ada Invented', 'Bo Invented'],
  });
});
