import { describe, expect, test } from 'vitest';
import {
  detailsOf,
  type Draft,
  emptyDraft,
  isComplete,
  isWorthSaving,
  kindAt,
} from '../../../src/app/screens/note/draft.ts';
import { instant_ms, nestId, zone } from './scratch-season.ts';

const nest = nestId('W-014');
const orla = { name: 'Orla', experience: 'lead' } as const;

describe('which half of the night', () => {
  test.each([
    ['2026-08-01T03:59-04:00', 'evening'],
    ['2026-08-01T04:00-04:00', 'morning'],
    ['2026-08-01T11:59-04:00', 'morning'],
    ['2026-08-01T12:00-04:00', 'evening'],
    ['2026-08-01T23:30-04:00', 'evening'],
  ])('%s is %s', (text, kind) => {
    expect(kindAt(instant_ms(text), zone)).toBe(kind);
  });
});

describe('three answers', () => {
  const evening: Draft = { ...emptyDraft, nest, surface: 'dip', heard: 'not listened' };

  test('of an evening are nest, surface and sound, and not having listened is one', () => {
    expect(isComplete(evening, 'evening')).toBe(true);
    expect(isComplete({ ...evening, heard: null }, 'evening')).toBe(false);
    expect(isComplete({ ...evening, nest: null }, 'evening')).toBe(false);
  });

  test('of a morning are nest, surface and tracks, and seeing none is one', () => {
    expect(isComplete(evening, 'morning')).toBe(false);
    expect(isComplete({ ...evening, tracks: 0 }, 'morning')).toBe(true);
  });

  test('the weather that is remembered is not by itself worth saving', () => {
    const remembered: Draft = { ...emptyDraft, nest, wind: 'calm', rain: 'none' };
    expect(isWorthSaving(remembered)).toBe(false);
    expect(isWorthSaving({ ...remembered, mishap: 'washover' })).toBe(true);
  });
});

describe('what goes on record', () => {
  test('is only what was said: nothing is filled in for what was not looked at', () => {
    const at_ms = instant_ms('2026-08-01T21:10-04:00');
    expect(
      detailsOf({ ...emptyDraft, nest, surface: 'dip' }, 'evening', orla, at_ms, zone),
    ).toEqual({ kind: 'evening', observer: 'Orla', experience: 'lead', surface: 'dip' });
  });

  test('a watch until now ends when the note is made', () => {
    const at_ms = instant_ms('2026-08-01T22:40-04:00');
    const watchedFrom_ms = instant_ms('2026-08-01T21:10-04:00');
    const draft: Draft = { ...emptyDraft, nest, watchedFrom_ms, emerged: 0 };
    expect(detailsOf(draft, 'evening', orla, at_ms, zone)).toMatchObject({
      watched_from: '2026-08-01T21:10-04:00',
      watched_to: '2026-08-01T22:40-04:00',
      emerged: 0,
    });
  });

  test('hatchlings counted without a watch are left out', () => {
    const at_ms = instant_ms('2026-08-01T22:40-04:00');
    const details = detailsOf({ ...emptyDraft, nest, emerged: 4 }, 'evening', orla, at_ms, zone);
    expect(details).not.toHaveProperty('emerged');
  });
});
