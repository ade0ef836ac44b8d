import { expect, test } from 'vitest';
import { newestCue } from '../../../src/app/screens/tonight/newest-cue.ts';
import type { NestId } from '../../../src/core/domain/nest.ts';
import { SeasonBuilder, eveningOf } from '../../builders/season.ts';

function cue(build: (season: SeasonBuilder) => SeasonBuilder, date = '2026-07-24'): string | null {
  const record = build(new SeasonBuilder().nest('W-1')).record();
  const visits = record.nests.get('W-1' as NestId)?.visits ?? [];
  return newestCue(visits, eveningOf(date, '21:30'));
}

test('nobody looked yet', () => {
  expect(cue((season) => season)).toBeNull();
});

test('a dip that is still there is told with its first evening', () => {
  const said = cue((season) =>
    season
      .visit('W-1', '2026-07-20', { surface: 'smooth' })
      .visit('W-1', '2026-07-21', { surface: 'dip' })
      .visit('W-1', '2026-07-22', { surface: 'dip' })
      .visit('W-1', '2026-07-24', { surface: 'dip' }),
  );
  expect(said).toBe('dip since Tue 21 Jul');
});

test('a dip that has deepened counts from the evening it was that deep', () => {
  const said = cue((season) =>
    season
      .visit('W-1', '2026-07-20', { surface: 'dip' })
      .visit('W-1', '2026-07-24', { surface: 'depression' }),
  );
  expect(said).toBe('depression this evening');
});

test('a dip that was gone again is not told', () => {
  const said = cue((season) =>
    season
      .visit('W-1', '2026-07-22', { surface: 'dip' })
      .visit('W-1', '2026-07-23', { surface: 'smooth', sound: 'quiet' }),
  );
  expect(said).toBe('smooth and quiet last night');
});

test('surface and sound stand together, sound only while it is fresh', () => {
  const build = (season: SeasonBuilder) =>
    season.visit('W-1', '2026-07-23', { surface: 'caved', sound: 'steady' });
  expect(cue(build)).toBe('caved in last night · steady scratching last night');
  expect(cue(build, '2026-07-28')).toBe('caved in on Thu 23 Jul');
});

test('tracks at dawn are told by the morning', () => {
  const said = cue((season) =>
    season.visit('W-1', '2026-07-23', { kind: 'morning', tracks: 2, surface: 'smooth' }),
  );
  expect(said).toBe('2 tracks this morning');
});

test('a note made later than the moment is not told', () => {
  expect(cue((season) => season.visit('W-1', '2026-07-25', { surface: 'dip' }))).toBeNull();
});
