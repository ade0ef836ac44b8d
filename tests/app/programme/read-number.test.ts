import { expect, test } from 'vitest';
import { bytesText } from '../../../src/app/screens/programme/bytes-text.ts';
import {
  readCount,
  readDegrees,
  readLength_m,
} from '../../../src/app/screens/programme/read-number.ts';

test('an empty field is not known, never zero', () => {
  expect(readDegrees(' ', 90)).toEqual({ ok: true, value: null });
  expect(readLength_m('', 'metric')).toEqual({ ok: true, value: null });
  expect(readCount('')).toEqual({ ok: true, value: null });
});

test('degrees take a point or a comma, and no more than there are', () => {
  expect(readDegrees('-80,25', 180)).toEqual({ ok: true, value: -80.25 });
  expect(readDegrees('27.5', 90)).toEqual({ ok: true, value: 27.5 });
  expect(readDegrees('97.5', 90)).toMatchObject({ ok: false });
  expect(readDegrees('27N', 90)).toMatchObject({ ok: false });
});

test('a length is more than nothing, a count is whole', () => {
  expect(readLength_m('0', 'metric')).toMatchObject({ ok: false });
  expect(readLength_m('2600', 'metric')).toEqual({ ok: true, value: 2600 });
  expect(readCount('2.5')).toMatchObject({ ok: false });
  expect(readCount('-1')).toMatchObject({ ok: false });
  expect(readCount('0')).toEqual({ ok: true, value: 0 });
});

test('a length in feet is kept in metres, and one that comes to nothing is refused', () => {
  expect(readLength_m('8530', 'feet')).toEqual({ ok: true, value: 2599.944 });
  expect(readLength_m('1,5', 'feet')).toEqual({ ok: true, value: 0.4572 });
  expect(readLength_m('0.0001', 'feet')).toMatchObject({ ok: false });
});

test('sizes are told as phones tell them', () => {
  expect([0, 12_400, 3_420_000, 11_300_000_000].map(bytesText)).toEqual([
    '0.0 kB',
    '12 kB',
    '3.4 MB',
    '11 GB',
  ]);
});
