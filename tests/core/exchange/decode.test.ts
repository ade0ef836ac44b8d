import { describe, expect, test } from 'vitest';
import { decode } from '../../../src/core/exchange/decode.ts';

const bytes = (...values: number[]): Uint8Array => Uint8Array.from(values);

describe('the text of a file', () => {
  test('is UTF-8, with or without its mark', () => {
    expect(decode(bytes(0xc3, 0xa4))).toEqual({ text: '\u00e4', encoding: 'UTF-8' });
    expect(decode(bytes(0xef, 0xbb, 0xbf, 0x61))).toEqual({ text: 'a', encoding: 'UTF-8' });
  });
  test('is Windows-1252 where it is not UTF-8', () => {
    // 0xE4 is the letter a with two dots in Latin-1; 0x80 the euro sign in Windows-1252 only.
    expect(decode(bytes(0xe4, 0x80))).toEqual({ text: '\u00e4\u20ac', encoding: 'Windows-1252' });
  });
  test('is UTF-16 where it bears that mark', () => {
    expect(decode(bytes(0xff, 0xfe, 0x61, 0)).text).toBe('a');
    expect(decode(bytes(0xfe, 0xff, 0, 0x61)).text).toBe('a');
  });
  test('is empty for an empty file', () => {
    expect(decode(bytes()).text).toBe('');
  });
});
