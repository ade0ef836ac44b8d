import { expect, test } from 'vitest';
import {
  compareNames,
  countOf,
  fixedText,
  listWords,
  localeTag,
  numberText,
} from '../../../src/core/domain/locale.ts';

test('English as it stands in the code is British', () => {
  expect(localeTag).toBe('en-GB');
});

test('a number has the digits behind its point that were asked for, no more and no fewer', () => {
  expect(fixedText(0.5, 2)).toBe('0.50');
  expect(fixedText(54.26, 1)).toBe('54.3');
  expect(fixedText(-1.25, 1)).toBe('-1.3');
  expect(fixedText(7.4, 0)).toBe('7');
});

test('a number that is not rounded keeps all its digits', () => {
  expect(numberText(38.5)).toBe('38.5');
  expect(numberText(-0.125)).toBe('-0.125');
  expect(numberText(12345)).toBe('12345');
});

test('a large count is grouped by thousands', () => {
  expect(countOf(7)).toBe('7');
  expect(countOf(12345)).toBe('12,345');
  expect(countOf(1234567)).toBe('1,234,567');
});

test('names are listed as one would say them', () => {
  expect(listWords([])).toBe('');
  expect(listWords(['Ada'])).toBe('Ada');
  expect(listWords(['Ada', 'Bo'])).toBe('Ada and Bo');
  expect(listWords(['Ada', 'Bo', 'Cy'])).toBe('Ada, Bo and Cy');
});

test('nests are in the order of their numbers, and accents do not send a name to the end', () => {
  expect(['W-10', 'W-9', 'E-100'].sort(compareNames)).toEqual(['E-100', 'W-9', 'W-10']);
  expect(['Zoe', 'Émile', 'Ada'].sort(compareNames)).toEqual(['Ada', 'Émile', 'Zoe']);
  expect(compareNames('W-9', 'W-9')).toBe(0);
});
