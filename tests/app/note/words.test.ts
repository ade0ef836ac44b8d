import { describe, expect, test } from 'vitest';
import { parseNight } from '../../../src/core/domain/night.ts';
import { chanceText } from '../../../src/app/screens/note/chance-text.ts';
import { nightText } from '../../../src/core/domain/night-text.ts';
import { hourText, saidOf, spanText } from '../../../src/app/screens/note/words.ts';
import { instant_ms, zone } from './scratch-season.ts';

describe('a chance', () => {
  test.each([
    [0, '<1 %'],
    [0.004, '<1 %'],
    [0.01, '1 %'],
    [0.376, '38 %'],
    [0.99, '99 %'],
    [0.996, '>99 %'],
    [1, '>99 %'],
  ])('%f is shown as %s', (p, text) => {
    expect(chanceText(p)).toBe(text);
  });
});

test('hours are those of the programme, not of the phone', () => {
  expect(hourText(instant_ms('2026-08-02T01:10+00:00'), zone)).toBe('21:10');
});

test('a night is named by the date of its evening', () => {
  const night = parseNight('2026-07-20');
  expect(night === null ? '' : nightText(night)).toBe('Mon 20 Jul');
});

test('spans are said in hours and minutes', () => {
  expect([25, 60, 100].map((minutes) => spanText(minutes * 60_000))).toEqual([
    '25 min',
    '1 h',
    '1 h 40 min',
  ]);
});

test('a note is said in one line; a look that found nothing is said too', () => {
  expect(saidOf({ surface: 'dip', sound: 'steady' })).toBe('dip · steady');
  expect(saidOf({ tracks: 0, surface: 'smooth' })).toBe('smooth · no tracks');
  expect(saidOf({ emerged: 0 })).toBe('watched, none came');
  expect(saidOf({})).toBe('');
});
