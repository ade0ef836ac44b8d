import { describe, expect, test } from 'vitest';
import { matchSeats } from '../../../src/core/roster/match-seats.ts';

describe('seats', () => {
  test('are filled for as many as can be, though the first would take another’s only one', () => {
    expect(matchSeats([[7, 8], [7], [8, 9]])).toEqual([8, 7, 9]);
  });

  test('stay empty where nobody fits', () => {
    expect(matchSeats([[], [7], [7]])).toEqual([null, 7, null]);
  });
});
