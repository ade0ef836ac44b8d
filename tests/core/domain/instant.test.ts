import { describe, expect, test } from 'vitest';
import { formatInstant, parseInstant, readTime } from '../../../src/core/domain/instant.ts';

describe('a time with its offset', () => {
  test.each([
    ['2026-07-20T21:10-04:00', Date.UTC(2026, 6, 21, 1, 10)],
    ['2026-07-20T21:10Z', Date.UTC(2026, 6, 20, 21, 10)],
    ['2026-07-20T21:10:05.25+09:30', Date.UTC(2026, 6, 20, 11, 40, 5, 250)],
    ['2026-07-20T21:10:05.123456789Z', Date.UTC(2026, 6, 20, 21, 10, 5, 123)],
    ['2028-02-29T00:00-12:00', Date.UTC(2028, 1, 29, 12)],
    ['1969-12-31T23:59:59.999Z', -1],
  ])('%s is read', (text, at_ms) => {
    expect(parseInstant(text)).toBe(at_ms);
    expect(parseInstant(text)).toBe(Date.parse(text));
  });

  test.each([
    '2026-02-30T10:00Z',
    '2026-02-29T10:00Z',
    '2026-13-01T10:00Z',
    '2026-07-20T24:00Z',
    '2026-07-20T21:60Z',
    '2026-07-20T21:10:60Z',
    '2026-07-20T21:10+24:00',
    '2026-07-20T21:10+04:60',
    '2026-07-20 21:10Z',
    '2026-07-20T21:10',
    '2026-07-20',
    '',
  ])('%s is no such time', (text) => {
    expect(parseInstant(text)).toBeNull();
  });
});

describe('a time without an offset', () => {
  test('is read on the clocks of the programme', () => {
    expect(readTime('2026-07-20 21:10', 'America/New_York')).toEqual({
      text: '2026-07-20T21:10-04:00',
      at_ms: Date.UTC(2026, 6, 21, 1, 10),
    });
  });

  test('that the clocks skip is read with the offset before, one they show twice as the first', () => {
    expect(readTime('2026-03-08T02:30', 'America/New_York')?.text).toBe('2026-03-08T03:30-04:00');
    expect(readTime('2026-11-01T01:30', 'America/New_York')?.text).toBe('2026-11-01T01:30-04:00');
  });

  test('that does not exist, or is not a time, is none', () => {
    expect(readTime('2026-02-30 21:10', 'UTC')).toBeNull();
    expect(readTime('half past nine', 'UTC')).toBeNull();
  });
});

test('an instant is written with seconds only when it has any', () => {
  const at_ms = Date.UTC(2026, 6, 21, 1, 10);
  expect(formatInstant(at_ms, 'America/New_York')).toBe('2026-07-20T21:10-04:00');
  expect(formatInstant(at_ms + 5000, 'America/New_York')).toBe('2026-07-20T21:10:05-04:00');
  expect(formatInstant(at_ms + 5001, 'America/New_York')).toBe('2026-07-20T21:10:05.001-04:00');
});
