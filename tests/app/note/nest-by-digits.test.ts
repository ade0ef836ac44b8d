import { describe, expect, test } from 'vitest';
import { nestsByDigits, nextDigits } from '../../../src/app/screens/note/nest-by-digits.ts';
import { nestId } from './scratch-season.ts';

const nests = ['W-014', 'W-140', 'N-014', 'W-004', 'Dune nest'].map(nestId);

describe('a nest by its number', () => {
  test('just that number comes first, in every zone, then numbers that go on from it', () => {
    expect(nestsByDigits(nests, '14')).toEqual(['N-014', 'W-014', 'W-140']);
  });
  test('leading zeros are free', () => {
    expect(nestsByDigits(nests, '014')).toEqual(['N-014', 'W-014', 'W-140']);
    expect(nestsByDigits(nests, '4')).toEqual(['W-004']);
  });
  test('nothing typed finds nothing', () => {
    expect(nestsByDigits(nests, '')).toEqual([]);
  });
});

test('digits that lead nowhere are known beforehand', () => {
  expect([...nextDigits(nests, '')].sort()).toEqual(['0', '1', '4']);
  expect([...nextDigits(nests, '14')].sort()).toEqual(['0']);
});
