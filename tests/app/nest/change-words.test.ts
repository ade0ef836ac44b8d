import { expect, test } from 'vitest';
import { changeWords } from '../../../src/app/screens/nest/change-words.ts';
import type { Change, Version } from '../../../src/core/log/history.ts';

function told(change: Change, measures: 'metric' | 'feet'): string {
  const version = { did: 'changed', changes: [change] } as unknown as Version;
  return changeWords(version, 'America/New_York', measures);
}

test('a corrected place along the shore is told in the measures chosen', () => {
  const moved = { field: 'shore_m', from: 120, to: 123.444 };
  expect(told(moved, 'metric')).toBe('metres along the shore from 120 to 123.444');
  expect(told(moved, 'feet')).toBe('feet along the shore from 393.7 to 405');
  const first = { field: 'shore_m', from: null, to: 3.048 };
  expect(told(first, 'feet')).toBe('feet along the shore: 10');
  const gone = { field: 'shore_m', from: 3.048, to: null };
  expect(told(gone, 'feet')).toBe('feet along the shore taken out (was 10)');
});

test('a count is the same in feet', () => {
  expect(told({ field: 'clutch', from: 90, to: 100 }, 'feet')).toBe('eggs from 90 to 100');
});
